#include "interpreter/share/tables.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "interpreter/measure/iso4217.hpp"

namespace levigate::sharing {

namespace {

/// A balance that comes into the file with a shade must not become that of all the others.
void add_balances(const Formulary& formulary, const Index& index, Picked& out) {
    std::vector<BalanceId> named;
    bool unnamed = false;
    const auto add = [&](BalanceId id) {
        if (id != nothing && std::find(named.begin(), named.end(), id) == named.end())
            named.push_back(id);
    };
    for (ShadeId id = 0; id < formulary.shades.size(); ++id) {
        if (!out.chosen[id]) continue;
        add(formulary.shades[id].balance);
        unnamed = unnamed || formulary.shades[id].balance == nothing;
    }
    const BalanceId own = formulary.only_balance;
    if (unnamed) add(own);
    for (const BalanceId id : named) out.tables.push_back(index.at(formulary.balances[id].span));
    const bool plain = named.empty() || (named.size() == 1 && own == named.front());
    if (!unnamed || plain) return;
    out.usual_balance = own == nothing;
    for (PickedShade& shade : out.shades) {
        if (shade.family || formulary.shades[shade.id].balance != nothing) continue;
        if (shade.way == Way::written && index.block(shade.place).like) continue;
        shade.balance = own;
        shade.usual_balance = own == nothing;
    }
}

/// What a measure of a person's own may be called in the singular and the plural.
std::vector<std::string> forms_of(std::string_view name) {
    const std::size_t of = std::min(name.find(" of "), name.size());
    const std::string head(name.substr(0, of)), tail(name.substr(of));
    std::vector<std::string> out{head + tail, head + "s" + tail, head + "es" + tail};
    if (head.ends_with('y')) out.push_back(head.substr(0, head.size() - 1) + "ies" + tail);
    return out;
}

}  // namespace

/// Rules and regions of a person's own, and of measures and balances those that are used.
void add_tables(const Compiled& compiled, const Index& index, std::vector<Place> due, Picked& out) {
    add_balances(compiled.formulary, index, out);
    std::unordered_map<std::string, Place> called;
    std::vector<Place> rules, rates;
    for (std::uint32_t f = 0; f < compiled.files.size(); ++f)
        for (std::uint32_t b = 0; b < compiled.files[f].tree.blocks.size(); ++b) {
            const Place place{f, b};
            const tree::Block& block = index.block(place);
            if (index.library(place)) continue;
            if (block.heading == Heading::rule || block.heading == Heading::region)
                rules.push_back(place);
            if (block.heading == Heading::rate) rates.push_back(place);
            if (block.heading == Heading::unit || block.heading == Heading::container)
                for (const std::string& form : forms_of(compiled.names.folded(block.name.sym)))
                    called.emplace(form, place);
        }
    due.insert(due.end(), out.tables.begin(), out.tables.end());
    due.insert(due.end(), rules.begin(), rules.end());
    std::set<Place> measures;
    std::set<std::uint32_t> currencies;
    for (const PickedShade& shade : out.shades)
        for (const Batch& batch : compiled.formulary.shades[shade.id].batches)
            if (const auto* count = std::get_if<ContainerCount>(&batch.size.amount)) {
                const Place place = index.at(compiled.formulary.containers[count->container].span);
                if (!index.library(place) && measures.insert(place).second) due.push_back(place);
            }
    std::string folded;
    for (std::size_t i = 0; i < due.size(); ++i) {
        const Place place = due[i];
        for (const Span words : index.measures(place)) {
            const std::string_view text = compiled.sources.text(words);
            const tree::Line* line = index.line_at(words);
            const std::uint32_t tag = currency_tag(text.substr(0, text.find(' ')));
            if (tag != 0 && (!line || !line->is_private)) currencies.insert(tag);
            fold_name(text, folded);
            for (std::size_t end = folded.find(' ');; end = folded.find(' ', end + 1)) {
                const auto found = called.find(folded.substr(0, end));
                if (found != called.end() && measures.insert(found->second).second)
                    due.push_back(found->second);
                if (end == std::string::npos) break;
            }
        }
    }
    auto& tables = out.tables;
    // A rate between currencies of which both go out.
    for (const Rate& rate : compiled.formulary.rates)
        for (const Place place : rates)
            if (index.block(place).span == rate.span && currencies.contains(rate.from) &&
                currencies.contains(rate.into))
                tables.insert(tables.begin(), place);
    tables.insert(tables.begin(), measures.begin(), measures.end());
    tables.insert(tables.begin(), rules.begin(), rules.end());
}

bool must_go_out(Form form) {
    if (form == Form::hazard) return true;
    return (form <= Form::let && form != Form::dilute) ||
           form == Form::from || (form >= Form::vary && form <= Form::row);
}

Finding private_line(const tree::Line& line) {
    const bool caution = line.form == Form::hazard;
    Finding out{
        Code::share_private,
        fmt::format("This line is private, and without it {}.",
                    caution ? "others would lack a caution" : "the formula would be another one"),
        line.span,
        caution ? "Leave `private` out of it."
                : "Let it go out, or put what is secret into a blend of its own with a "
                  "line `sealed`."};
    // What lets a secret out is never certain.
    Span word = line.span;
    word.end = line.word_begin;
    out.fixes = {possible_fix(word, "")};
    return out;
}

}  // namespace levigate::sharing
