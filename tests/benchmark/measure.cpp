#include "measure.hpp"

#include <algorithm>
#include <ctime>
#include <iomanip>
#include <iostream>
#include <sstream>
#include <stdexcept>

namespace slipbark::benchmarks {

double median(std::vector<double> values) {
    if (values.empty()) throw std::invalid_argument("no median of nothing");
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

double processor_seconds(pid_t process) {
    clockid_t clock{};
    timespec time{};
    if (clock_getcpuclockid(process, &clock) != 0 || clock_gettime(clock, &time) != 0) {
        throw std::runtime_error("no processor time of process " + std::to_string(process));
    }
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_nsec) * 1e-9;
}

void take_turns(std::vector<Contender>& contenders, int times) {
    const auto prepare = [](const Contender& contender) {
        if (contender.prepare) contender.prepare();
    };
    for (auto& contender : contenders) {
        prepare(contender);
        contender.work();
    }
    for (int round = 0; round < times; ++round) {
        for (std::size_t turn = 0; turn < contenders.size(); ++turn) {
            auto& contender = contenders[round % 2 == 0 ? turn : contenders.size() - 1 - turn];
            prepare(contender);
            const double before = processor_seconds(contender.process);
            contender.work();
            contender.seconds.push_back(processor_seconds(contender.process) - before);
        }
    }
}

void per_unit(Contender& contender, int units) {
    for (double& seconds : contender.seconds) seconds /= units;
}

double ratio(const Contender& one, const Contender& other) {
    std::vector<double> ratios;
    for (std::size_t round = 0; round < one.seconds.size(); ++round) {
        ratios.push_back(one.seconds.at(round) / other.seconds.at(round));
    }
    return median(ratios);
}

Report::Report(const std::string& title, const std::vector<std::string>& columns) : columns_(columns.size()) {
    std::cout << "\n### " << title << "\n\n";
    row(columns);
    row(std::vector<std::string>(columns.size(), "---"));
}

void Report::row(const std::vector<std::string>& cells) const {
    if (cells.size() != columns_) throw std::logic_error("a row of another width than its table");
    std::cout << "|";
    for (const auto& cell : cells) std::cout << " " << cell << " |";
    std::cout << std::endl;  // a long run is watched
}

std::string Report::number(double value, int decimals) {
    std::ostringstream text;
    text << std::fixed << std::setprecision(decimals) << value;
    return text.str();
}

}  // namespace slipbark::benchmarks
