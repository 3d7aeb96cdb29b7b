// Any bytes as a shade file: read, resolved, expanded. It ends in sheets or in a finding.

#include "interpreter/expand/expand.hpp"
#include "interpreter/compile.hpp"
#include "interpreter/render/findings.hpp"
#include "tests/fuzz/fuzzed.hpp"

using namespace levigate;
using namespace levigate::testing;

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    if (size > most_bytes) return -1;
    const World world = memory_world({{"a.shade", as_text(data, size)}});
    const Compiled compiled = compile(world, "a.shade", Library::with_rules);
    Choice choice;
    choice.all = true;
    choice.most = 1000;
    Findings all = compiled.findings;
    const Findings outside =
        expand_each(compiled.formulary, compiled.names, choice, [&](const Sheet& sheet) {
            all.insert(all.end(), sheet.findings.begin(), sheet.findings.end());
        });
    all.insert(all.end(), outside.begin(), outside.end());
    for (const Finding& one : all)
        demand(one.code != Code::shade_unexplained, "nothing is broken in silence");
    demand(findings_text(compiled.sources, all, {}).empty() == all.empty(), "findings are said");
    return 0;
}
