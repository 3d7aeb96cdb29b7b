// Any bytes as a file of records, beside a formula that they may be of.

#include "interpreter/compile.hpp"
#include "tests/fuzz/fuzzed.hpp"

using namespace levigate;
using namespace levigate::testing;

namespace {

constexpr const char* page = "material soft base\n"
                             "material copper mica\n"
                             "blend Pear dust\n"
                             "    1 part      copper mica\n"
                             "shade Pear\n"
                             "    rest        soft base\n"
                             "    8 %         Pear dust\n"
                             "    batch       full 40 g\n";

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    if (size > most_bytes) return -1;
    Compiled compiled = compile(memory_world({{"pear.shade", page}}), "pear.shade");
    const auto read = read_records(compiled, "records.shade", as_text(data, size));
    for (const Record& record : read.value)
        demand(record.finished || any_error(read.findings) || !read.findings.empty(),
               "a record that was cut off is told");
    return 0;
}
