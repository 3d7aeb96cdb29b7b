// An edition of any file that has one: it reads without an error, and says what it is.

#include "interpreter/share/share.hpp"
#include "tests/fuzz/fuzzed.hpp"

using namespace levigate;
using namespace levigate::testing;

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    if (size > most_bytes) return -1;
    const World world = memory_world({{"a.shade", as_text(data, size)}});
    Compiled source = compile(world, "a.shade", Library::with_rules);
    if (source.unreadable || any_error(source.findings)) return 0;
    ShareOrder order;
    order.otherwise = "A page";
    const Outcome<Shared> shared = share_edition(source, order);
    demand(shared.value.text.empty() == any_error(shared.findings), "it goes out, or is refused");
    if (shared.value.text.empty()) return 0;
    const Compiled edition =
        compile(memory_world({{"a.shade", shared.value.text}}), "a.shade", Library::with_rules);
    demand(edition.formulary.edition && edition.formulary.edition->unaltered == true,
           "it is known again by its digest");
    return 0;
}
