#include "interpreter/resolve/joined_records.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"

namespace levigate::resolving {

namespace {

/// A line that a record holds once stands in it twice, or the record goes on behind its last line.
std::string twice_words(const tree::File& file, const tree::Block& block) {
    constexpr std::array once{Form::by, Form::code, Form::filled, Form::formula};
    std::array<bool, once.size()> seen{};
    bool closed = false;
    for (std::uint32_t i = 0; i < block.count; ++i) {
        const Form form = file.lines[block.first + i].form;
        if (closed && form != Form::note && form != Form::formula)
            return fmt::format("a line `{}` behind its last line", entry(form).word);
        for (std::size_t k = 0; k < once.size(); ++k)
            if (once[k] == form && std::exchange(seen[k], true))
                return fmt::format("two lines `{}`", entry(form).word);
        closed = closed || form == Form::formula;
    }
    return {};
}

/// Far more of one ingredient was weighed, in several lines, than was planned, and no line says so:
/// `levigate record` writes down what is otherwise than planned.
std::string doubled_words(const Record& record) {
    struct Sums {
        Mass planned, weighed;
        int lines = 0;
    };
    std::map<std::pair<std::string, std::string>, Sums> sums;
    for (const Pour& pour : record.planned) sums[{pour.bowl, pour.name}].planned += pour.mass;
    for (const Pour& pour : record.weighed) {
        Sums& one = sums[{pour.bowl, pour.name}];
        one.weighed += pour.mass;
        ++one.lines;
    }
    for (const auto& [key, one] : sums) {
        const Exact planned = in_grams(one.planned), weighed = in_grams(one.weighed);
        if (one.lines < 2 || planned.sign() <= 0 || !(planned * Exact(3, 2) < weighed)) continue;
        const std::string more = gram_words(one.weighed - one.planned) + " more than planned";
        const bool said = std::any_of(
            record.deviations.begin(), record.deviations.end(), [&](const std::string& words) {
                return words.starts_with(key.second) && words.find(more) != words.npos;
            });
        if (!said)
            return fmt::format("{} of {} where {} were planned, and no `deviation` says so",
                               gram_words(one.weighed), key.second, gram_words(one.planned));
    }
    return {};
}

}  // namespace

std::string joined_words(const tree::File& file, const tree::Block& block, const Record& record) {
    std::string out = twice_words(file, block);
    return out.empty() ? doubled_words(record) : out;
}

}  // namespace levigate::resolving
