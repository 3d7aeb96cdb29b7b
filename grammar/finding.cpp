#include "grammar/finding.hpp"

namespace levigate {

const std::string& remedy(const Finding& finding) {
    if (!finding.advice.empty() || (finding.fixes.empty() && finding.example.empty()))
        return finding.advice;
    return finding.fixes.empty() ? finding.example : finding.fixes.front().text;
}

void show_example(Finding& finding, std::string example) {
    finding.advice.clear();
    finding.fixes.clear();
    finding.example = std::move(example);
}

void advise(Finding& finding, std::string advice) {
    show_example(finding, {});
    finding.advice = std::move(advice);
}

}  // namespace levigate
