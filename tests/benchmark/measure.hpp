// How the benchmarks in the office take their times: contenders take turns in one run, and what is told is the median.
#pragma once

#include <sys/types.h>

#include <functional>
#include <string>
#include <vector>

namespace slipbark::benchmarks {

/// Fewer rounds than this are no median.
inline constexpr int rounds = 7;

struct Contender {
    std::string name;
    pid_t process;  ///< that does the work
    std::function<void()> work;
    std::function<void()> prepare = {};  ///< done before each work and not measured
    std::vector<double> seconds = {};    ///< one per round, or what a unit of it took: see per_unit()
};

double median(std::vector<double> values);

/// Processor time that a process has used so far, in seconds. On a machine with other work it tells more than the clock
/// on the wall; an add-in call is computed on one thread, so it is also the time a user waits.
double processor_seconds(pid_t process);

/// Lets each contender work once unmeasured and then `times` times, in turns and every second round backwards, and
/// keeps what its process spent on it.
void take_turns(std::vector<Contender>& contenders, int times = rounds);

/// Divides what each round took by the `units`, such as cells, that it worked on.
void per_unit(Contender& contender, int units);

/// The median over the rounds of what `one` took against `other` in the same round.
double ratio(const Contender& one, const Contender& other);

/// A table in Markdown, printed row by row.
class Report {
  public:
    Report(const std::string& title, const std::vector<std::string>& columns);
    void row(const std::vector<std::string>& cells) const;

    static std::string number(double value, int decimals);

  private:
    std::size_t columns_;
};

}  // namespace slipbark::benchmarks
