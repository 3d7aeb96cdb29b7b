#pragma once
// Labels of a small file, judged by the library's rule pages.

#include <string>

#include "interpreter/compile.hpp"
#include "interpreter/rules/label.hpp"

namespace levigate::testing {

struct Boxed {
    Compiled compiled;
    BoxLabels labels;
};

/// `market`: "US" or "EU".
inline Boxed made(const std::string& file, const std::string& market, bool range = false,
                 Choice choice = {}) {
    Boxed out{compile(memory_world({{"a.shade", file}}), "a.shade", Library::with_rules), {}};
    choice.density = true;
    LabelOrder order{{{market, out.compiled.names.intern(market)}}, range, no_name};
    Labeller labeller(out.compiled.formulary, out.compiled.names, order);
    each_product(out.compiled.formulary, out.compiled.names, choice,
                 [&](const Product& product) { labeller.add(product); });
    out.labels = labeller.make();
    return out;
}

/// The list without its first word; of several labels one a line; of none the codes that say why.
inline std::string list(const Boxed& from) {
    std::string out;
    const std::string head = "Ingredients: ";
    for (const BoxLabel& label : from.labels.labels)
        out += (out.empty() ? "" : "\n") + label.text.substr(head.size());
    if (!from.labels.labels.empty()) return out;
    for (const Finding& finding : from.compiled.findings)
        if (finding.code == Code::label_shares) return "label-shares";
    for (const Finding& finding : from.labels.findings)
        out += (out.empty() ? "" : " ") + std::string(row_of(finding.code).name);
    return out;
}

/// "main", "minor", … of one ingredient in the first list.
inline std::string group(const Boxed& from, const std::string& name) {
    static const char* const words[] = {"main", "minor", "colourant", "may contain", "named"};
    for (const Listed& one : from.labels.labels.at(0).list)
        if (one.name.name == name) return words[static_cast<int>(one.group)];
    return "not there";
}

}  // namespace levigate::testing
