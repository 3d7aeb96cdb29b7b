#include "interpreter/share/print.hpp"

#include <fmt/format.h>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/written_name.hpp"
#include "interpreter/measure/iso4217.hpp"

namespace levigate::sharing {

namespace {

std::string ref_in_words(const Formulary& formulary, const Ref& ref) {
    if (ref.kind == Ref::Kind::bulk) return "the bulk";
    if (ref.kind == Ref::Kind::role) return "the " + name_words(formulary.role_names[ref.role]);
    return name_words(formulary.name(ref.ingredient));
}

std::string factor_words(const Exact& factor) {
    if (factor == Exact(1)) return {};
    if (factor == Exact(1, 2)) return "half ";
    if (factor == Exact(2)) return "twice ";
    return factor.exactly() + " × ";
}

std::string quantity_words(const Quantity& value) {
    switch (value.kind) {
        case Kind::share: return (value.value * 100).exactly() + " %";
        case Kind::mass: return value.value.exactly() + " g";
        case Kind::volume: return value.value.exactly() + " mL";
        case Kind::density: return value.value.exactly() + " g/mL";
        case Kind::money:
            return fmt::format("{} {}", value.value.exactly(), currency_code(value.tag));
        default: return value.value.exactly();
    }
}

std::string measured_words(const Formulary& formulary, const Expectation& expect) {
    using enum Expectation::Measure;
    switch (expect.measure) {
        case ingredient: return name_words(formulary.name(expect.ingredient));
        case role: return "the " + name_words(formulary.role_names[expect.role]);
        case density: return "density";
        case whole: return "the whole";
        case cost: return "cost";
        case cost_per: return "cost per " + name_words(formulary.containers[expect.container].name);
    }
    return {};
}

}  // namespace

std::string name_words(std::string_view name) { return written_name(name); }

std::string exact_share(const Share& share) { return in_percent(share).exactly() + " %"; }

std::string part_words(const Formulary& formulary, const Part& part) {
    const std::string name = name_words(formulary.name(part.what));
    if (const auto* share = std::get_if<Share>(&part.amount))
        return fmt::format("{}  {}", exact_share(*share), name);
    if (const auto* weight = std::get_if<Weight>(&part.amount)) {
        const Exact& size = in_grams(weight->mass);
        return fmt::format("{} {}  {}", size.exactly(), weight->parts ? counted("part", size) : "g",
                           name);
    }
    if (const auto* as_much = std::get_if<AsMuch>(&part.amount))
        return fmt::format("{}as much {} as {}", factor_words(as_much->factor), name,
                           ref_in_words(formulary, as_much->ref));
    if (const auto* enough = std::get_if<Enough>(&part.amount))
        return fmt::format("enough {} to bring {} to {}", name,
                           ref_in_words(formulary, enough->ref), exact_share(enough->share));
    return "rest  " + name;
}

std::string batch_words(const Formulary& formulary, const Batch& batch) {
    const bool number = batch.name.find_first_of("0123456789.{(") != std::string::npos;
    std::string out =
        fmt::format("batch  {}  ", number ? '"' + batch.name + '"' : name_words(batch.name));
    if (const auto* mass = std::get_if<Mass>(&batch.size.amount)) {
        out += in_grams(*mass).exactly() + " g";
    } else if (const auto* volume = std::get_if<Volume>(&batch.size.amount)) {
        out += in_millilitres(*volume).exactly() + " mL";
    } else {
        const auto& count = std::get<ContainerCount>(batch.size.amount);
        const std::string& name = formulary.containers[count.container].name;
        out += fmt::format("{} {}", count.count.exactly(),
                           needs_name_quotes(name) ? '"' + name + '"' : counted(name, count.count));
    }
    if (!(batch.size.overage == Share())) out += ", overage " + exact_share(batch.size.overage);
    if (const auto* mass = std::get_if<Mass>(&batch.size.holdback))
        out += fmt::format(", holdback {} g", in_grams(*mass).exactly());
    if (const auto* volume = std::get_if<Volume>(&batch.size.holdback))
        out += fmt::format(", holdback {} mL", in_millilitres(*volume).exactly());
    return out;
}

std::string expect_words(const Formulary& formulary, const Expectation& expect) {
    constexpr const char* words[] = {"at most", "at least", "under", "over", "is"};
    const std::string what = measured_words(formulary, expect);
    if (expect.compare == Expectation::Compare::between)
        return fmt::format("expect  {} between {} and {}", what, quantity_words(expect.low),
                           quantity_words(expect.high));
    return fmt::format("expect  {} {} {}", what, words[static_cast<std::size_t>(expect.compare)],
                       quantity_words(expect.low));
}

std::string text_words(const Formulary& formulary, const Text& text) {
    std::string out;
    for (const TextPiece& piece : text.pieces)
        out += piece.kind == TextPiece::Kind::words
                   ? piece.words
                   : '{' + name_words(formulary.name(piece.ingredient)) + '}';
    return out;
}

}  // namespace levigate::sharing
