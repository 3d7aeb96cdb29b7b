// What stands behind an option: a size, or what was poured.

#include "grammar/lines.hpp"
#include "grammar/misread.hpp"
#include "grammar/read.hpp"

namespace levigate {

namespace {

/// One line from the command line; `parse` takes it to the draft.
template <typename Text, typename Parse>
void read_one(const Sources& sources, SourceId source, Names& names, Outcome<Text>& out,
              std::string_view example, const Parse& parse) {
    out.value.file.source = source;
    const std::string_view text = sources[source].text;
    const auto size = static_cast<std::uint32_t>(text.size());
    if (!check_characters(text, 0, size, source, out.findings)) return;
    Draft draft{names, out.value.file, text, text.data()};
    const PhysicalLine line = cut_line(text, 0);
    const auto wrong = parse(text.data() + line.begin, text.data() + line.end, draft);
    if (wrong)
        out.findings.push_back(
            explain_misread(*wrong, text, {source, line.begin, line.end}, example));
}

}  // namespace

Outcome<SizeText> read_size_text(const Sources& sources, SourceId source, Names& names) {
    Outcome<SizeText> out;
    read_one(sources, source, names, out, "48 slim tubes, overage 5 %",
             [&](const char* begin, const char* end, Draft& draft) {
                 auto wrong = read_quantity(begin, end, draft);
                 if (wrong) return wrong;
                 out.value.quantity = draft.exprs.front();
                 out.value.overage = draft.overage;
                 out.value.holdback = draft.holdback;
                 return wrong;
             });
    return out;
}

Outcome<PoursText> read_pours_text(const Sources& sources, SourceId source, Names& names) {
    Outcome<PoursText> out;
    read_one(sources, source, names, out, "6.2 g soft base, 1.4 g Windfall mica",
             [&](const char* begin, const char* end, Draft& draft) {
                 auto wrong = read_pours(begin, end, draft);
                 if (!wrong) out.value.pours = draft.pours;
                 return wrong;
             });
    return out;
}

}  // namespace levigate
