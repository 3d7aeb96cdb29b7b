// Any bytes in canonical form: the same again when tidied again, and meaning what they meant.

#include "interpreter/query/tidied.hpp"
#include "tests/fuzz/fuzzed.hpp"

using namespace levigate;
using namespace levigate::testing;

namespace {

TidiedFile tidy_text(std::string text) {
    return tidied(memory_world({{"a.shade", std::move(text)}}), "a.shade");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    if (size > most_bytes) return -1;
    const TidiedFile once = tidy_text(as_text(data, size));
    if (once.unreadable) return 0;
    for (const Finding& one : once.tidied.findings)
        demand(one.code != Code::tidy_changed, "the canonical form says the same");
    demand(tidy_text(once.tidied.text).tidied.text == once.tidied.text, "twice is as once");
    return 0;
}
