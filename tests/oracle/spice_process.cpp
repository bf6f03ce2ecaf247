#include "tests/oracle/spice_process.h"

#include <ngspice/sharedspice.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdint>
#include <cstring>
#include <optional>

namespace fl::test {

namespace {

std::string said; // what ngspice wrote since the last netlist
bool leaving = false;

int hear(char* text, int, void*) {
    said += text;
    said += '\n';
    return 0;
}
int status(char*, int, void*) {
    return 0;
}
int leave(int, bool, bool, int, void*) {
    leaving = true;
    return 0;
}
int data(vecvaluesall*, int, int, void*) {
    return 0;
}
int init_data(vecinfoall*, int, void*) {
    return 0;
}
int thread_runs(bool, int, void*) {
    return 0;
}

int command(std::string text) {
    return ngSpice_Command(text.data());
}

/// The last value of a vector, the one at full demand.
std::optional<double> last_of(std::string name) {
    const pvector_info info = ngGet_Vec_Info(name.data());
    if (!info || info->v_length < 2 || !info->v_realdata) return {};
    return info->v_realdata[info->v_length - 1];
}

SpiceAnswer solve_one(const SpiceQuestion& question) {
    std::string netlist = question.text;
    SpiceAnswer answer;
    answer.kind = SpiceAnswer::Kind::refused;
    said.clear();
    std::vector<char*> lines;
    for (char* at = netlist.data(); *at;) {
        lines.push_back(at);
        char* end = std::strchr(at, '\n');
        if (!end) break;
        *end = '\0';
        at = end + 1;
    }
    lines.push_back(nullptr);
    const int loaded = ngSpice_Circ(lines.data());
    const int ran = loaded == 0 ? command("run") : 1;
    // Codes and messages first: after a failure old vectors are still there to be read.
    const bool complained =
        said.find("aborted") != std::string::npos || said.find("stderr Error") != std::string::npos;
    if (loaded == 0 && ran == 0 && !leaving && !complained) {
        answer.kind = SpiceAnswer::Kind::solved;
        const auto take = [&answer](std::vector<double>& into, const std::string& name) {
            const auto value = last_of(name);
            if (value) {
                into.push_back(*value);
                return;
            }
            answer.kind = SpiceAnswer::Kind::refused;
            said += "no vector " + name;
        };
        for (int n = 0; n < question.nodes; ++n) take(answer.node_V, "n" + std::to_string(n));
        for (const std::string& name : question.ammeters) take(answer.amps, name + "#branch");
    }
    answer.message = said;
    command("destroy all");
    command("remcirc");
    return answer;
}

void write_all(int file, const void* from, std::size_t size) {
    const char* at = static_cast<const char*>(from);
    while (size > 0) {
        const ssize_t wrote = write(file, at, size);
        if (wrote <= 0) _exit(3);
        at += wrote;
        size -= static_cast<std::size_t>(wrote);
    }
}

bool read_all(int file, void* to, std::size_t size) {
    char* at = static_cast<char*>(to);
    while (size > 0) {
        const ssize_t got = read(file, at, size);
        if (got <= 0) return false;
        at += got;
        size -= static_cast<std::size_t>(got);
    }
    return true;
}

[[noreturn]] void child(int file, const std::vector<SpiceQuestion>& questions) {
    ngSpice_Init(hear, status, leave, data, init_data, thread_runs, nullptr);
    command("optran 1 1 1 0 0 0"); // its last resort, a transient, stops at a time and not at rest
    for (const SpiceQuestion& question : questions) {
        const SpiceAnswer answer = solve_one(question);
        const std::uint64_t head[4] = {answer.kind == SpiceAnswer::Kind::solved ? 1u : 0u,
                                       answer.node_V.size(), answer.amps.size(), answer.message.size()};
        write_all(file, head, sizeof head);
        write_all(file, answer.node_V.data(), answer.node_V.size() * sizeof(double));
        write_all(file, answer.amps.data(), answer.amps.size() * sizeof(double));
        write_all(file, answer.message.data(), answer.message.size());
        if (leaving) break; // it asked to be unloaded: nothing after this would count
    }
    _exit(0);
}

} // namespace

std::vector<SpiceAnswer> run_spice(const std::vector<SpiceQuestion>& questions) {
    std::vector<SpiceAnswer> answers(questions.size());
    int ends[2];
    if (pipe(ends) != 0) return answers;
    const pid_t process = fork();
    if (process == 0) {
        close(ends[0]);
        child(ends[1], questions);
    }
    close(ends[1]);
    for (SpiceAnswer& answer : answers) {
        std::uint64_t head[4];
        if (process < 0 || !read_all(ends[0], head, sizeof head)) break;
        answer.node_V.resize(head[1]);
        answer.amps.resize(head[2]);
        answer.message.resize(head[3]);
        if (!read_all(ends[0], answer.node_V.data(), head[1] * sizeof(double)) ||
            !read_all(ends[0], answer.amps.data(), head[2] * sizeof(double)) ||
            !read_all(ends[0], answer.message.data(), head[3]))
            break;
        answer.kind = head[0] ? SpiceAnswer::Kind::solved : SpiceAnswer::Kind::refused;
    }
    close(ends[0]);
    if (process > 0) waitpid(process, nullptr, 0);
    return answers;
}

} // namespace fl::test
