#include "interpreter/cli/reading.hpp"

#include <fmt/format.h>

namespace levigate::cli {

Outcome<std::optional<Reading>> read_reading(Compiled& compiled, const Arguments& arguments) {
    Outcome<std::optional<Reading>> out;
    const auto text = arguments.get("--reads");
    if (!text) return out;
    auto read = read_mass(compiled, *text, "--reads");
    for (Finding& finding : read.findings) {
        if (finding.code == "quantity-bare")
            finding.message = "A balance's step needs a measure behind the number.";
        if (finding.code == "batch-nothing")
            finding.code = "balance-step",
            finding.message = "A balance reads in steps of more than nothing.";
        finding.remedy = "0.01 g";
    }
    out.findings = std::move(read.findings);
    if (!read.value) return out;
    Reading reading;
    reading.step = *read.value;
    if (in_grams(reading.step).sign() > 0 &&
        in_grams(reading.step).finite_decimal(reading.places)) {
        out.value = reading;
        return out;
    }
    out.findings.push_back(
        {"balance-step", Severity::error,
         fmt::format("Behind --reads stands \"{}\", but the step of a balance is more than nothing "
                     "and a decimal of grams, such as 0.01 g.",
                     *text),
         Span{}, "--reads 0.01g"});
    return out;
}

}  // namespace levigate::cli
