#include "interpreter/record/record.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "interpreter/expand/batch.hpp"
#include "interpreter/expand/expand.hpp"
#include "interpreter/expand/expectations.hpp"
#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

void add(std::optional<Mass>& to, const Mass& mass) { to = to ? *to + mass : mass; }

/// The lines of a record, found by bowl and name.
class Lines {
public:
    explicit Lines(std::vector<RecordLine> lines = {}) : lines_(std::move(lines)) {
        for (std::size_t i = 0; i < lines_.size(); ++i)
            places_.emplace(std::pair(lines_[i].bowl, lines_[i].name), i);
    }
    RecordLine& at(const std::string& bowl, const std::string& name) {
        const auto [place, fresh] = places_.emplace(std::pair(bowl, name), lines_.size());
        if (fresh) lines_.push_back({bowl, name, {}, {}, {}, {}});
        return lines_[place->second];
    }
    std::vector<RecordLine> take() { return std::move(lines_); }

private:
    std::vector<RecordLine> lines_;
    std::map<std::pair<std::string, std::string>, std::size_t> places_;
};

Mass sum_of(const std::vector<Pour>& pours, const Formulary& formulary, const std::string& bowl) {
    Mass sum;
    for (const Pour& pour : pours)
        if (poured_bowl(formulary, pour) == bowl) sum += pour.mass;
    return sum;
}

/// The product as it is chosen today: nothing where the shade can't be made any more.
std::optional<Choice> choice_of(const Formulary& formulary, const Names& names,
                                const Record& record) {
    if (record.shade == nothing) return std::nullopt;
    const Shade& shade = formulary.shades[record.shade];
    Choice choice;
    choice.shade = shade.name;
    for (const Sym sym : record.under) {
        const bool variant = std::any_of(shade.versions.begin(), shade.versions.end(),
                                         [&](const Version& one) { return one.sym == sym; });
        (variant ? choice.variant : choice.finish) = std::string(names.folded(sym));
    }
    choice.words = choice.expectations = choice.materials = false;
    return choice;
}

/// The same product, weighed as its formula has it.
Choice plain_choice(const Formulary& formulary, const Names& names, const Sheet& sheet) {
    const Shade& shade = formulary.shades[sheet.shade];
    Choice choice;
    choice.only = sheet.shade;
    if (sheet.version > 0)
        choice.variant = std::string(names.folded(shade.versions[sheet.version].sym));
    if (sheet.finishing != nothing)
        choice.finish = formulary.finishes[formulary.finishings[sheet.finishing].finish].name;
    choice.make = BatchSize{grams(1), {}, {}, {}, false};
    choice.words = choice.expectations = choice.materials = choice.dilutions = false;
    return choice;
}

// FNV-1a over the text of the shares (G. Fowler, L. C. Noll, K.-P. Vo; parameters from
// draft-eastlake-fnv): it tells slips and changes apart, and guards against no forger.
std::string fingerprint_of(const Formulary& formulary, const Sheet& sheet) {
    std::uint64_t hash = 14695981039346656037u;
    const auto take = [&](std::string_view text) {
        for (const char sign : text)
            hash = (hash ^ static_cast<unsigned char>(sign)) * 1099511628211u;
        hash = (hash ^ 0x1F) * 1099511628211u;
    };
    for (const Bowl& bowl : sheet.bowls) {
        take(bowl.mix == no_ingredient ? "" : formulary.name(bowl.mix));
        for (const SheetLine& line : bowl.lines) {
            take(formulary.name(line.what));
            take(as_fraction(line.share).fraction());
        }
    }
    return fmt::format("{:016x}", hash);
}

void set_today(const Formulary& formulary, const Sheet& sheet, RecordReport& report) {
    Lines lines(std::move(report.lines));
    for (const Bowl& bowl : sheet.bowls) {
        const std::string name = bowl.mix == no_ingredient ? "" : formulary.name(bowl.mix);
        const Mass whole = sum_of(report.record.planned, formulary, name);
        Mass sum;
        for (const SheetLine& line : bowl.lines) sum += line.exact;
        if (in_grams(whole).sign() <= 0 || in_grams(sum).sign() <= 0) continue;
        for (const SheetLine& line : bowl.lines)
            lines.at(name, formulary.name(line.what)).today = share_of(line.exact, sum) * whole;
    }
    report.lines = lines.take();
}

/// The product of a record as the files have it now.
struct Today {
    std::optional<Sheet> sheet;      ///< none where it can't be made any more
    std::string formula;             ///< its fingerprint
    std::optional<Density> density;  ///< or what lacks one
    std::string lacking;
};

Today today(const Formulary& formulary, const Names& names, const Record& record) {
    Today out;
    std::optional<Choice> choice = choice_of(formulary, names, record);
    if (!choice) return out;
    choice->make = BatchSize{grams(1), {}, {}, {}, false};
    Sheets sheets = expand(formulary, names, *choice);
    if (sheets.sheets.size() == 1) out.sheet = std::move(sheets.sheets.front());
    if (out.sheet) out.formula = fingerprint(formulary, names, *out.sheet);
    choice->density = choice->materials = true;
    each_product(formulary, names, *choice, [&](const Product& product) {
        out.density = product.density;
        if (!out.density) out.lacking = lacking_words(formulary, product.lacking);
    });
    return out;
}

void tell(const Formulary& formulary, const Today& today, RecordReport& out) {
    Record& record = out.record;
    place_pours(formulary, record.planned, record.weighed);
    out.lines = record_lines(formulary, record.planned, record.weighed);
    out.in = sum_of(record.weighed, formulary, "");
    if (record.filled) {
        out.filled = size_words(formulary, *record.filled);
        out.out = batch_mass(formulary, *record.filled, today.density);
        if (!out.out) out.lacking = today.lacking;
    }
    if (!today.sheet) return;
    out.step = today.sheet->reading.step;
    out.formula = today.formula == record.formula ? RecordReport::Formula::same
                                                  : RecordReport::Formula::changed;
    set_today(formulary, *today.sheet, out);
}

}  // namespace

/// As the files call it today, else as it was written.
std::string poured_name(const Formulary& formulary, const Pour& pour) {
    return pour.what == no_ingredient ? pour.name : formulary.name(pour.what);
}

std::string poured_bowl(const Formulary& formulary, const Pour& pour) {
    return pour.into == no_ingredient ? pour.bowl : formulary.name(pour.into);
}

std::vector<Pour> planned_pours(const Formulary& formulary, const Sheet& sheet) {
    std::vector<Pour> out;
    for (const Bowl& bowl : sheet.bowls)
        for (const SheetLine& line : bowl.lines) {
            Pour pour;
            pour.what = line.what;
            pour.name = formulary.name(line.what);
            pour.mass = grams(line.steps * in_grams(sheet.reading.step));
            pour.into = bowl.mix;
            if (bowl.mix != no_ingredient) pour.bowl = formulary.name(bowl.mix);
            out.push_back(std::move(pour));
        }
    return out;
}

void place_pours(const Formulary& formulary, const std::vector<Pour>& planned,
                 std::vector<Pour>& weighed) {
    std::map<std::string, const Pour*> only;  // null: in the shade's own bowl, or in several
    for (const Pour& pour : planned) {
        const auto [place, fresh] = only.emplace(poured_name(formulary, pour), &pour);
        if (!fresh || pour.bowl.empty()) place->second = nullptr;
    }
    for (Pour& pour : weighed) {
        const auto found = only.find(poured_name(formulary, pour));
        if (!pour.bowl.empty() || found == only.end() || !found->second) continue;
        pour.bowl = found->second->bowl;
        pour.into = found->second->into;
    }
}

std::vector<RecordLine> record_lines(const Formulary& formulary, const std::vector<Pour>& planned,
                                     const std::vector<Pour>& weighed) {
    Lines out;
    std::set<std::pair<std::string, std::string>> lots;
    for (const Pour& pour : planned)
        add(out.at(poured_bowl(formulary, pour), poured_name(formulary, pour)).planned, pour.mass);
    for (const Pour& pour : weighed) {
        RecordLine& line = out.at(poured_bowl(formulary, pour), poured_name(formulary, pour));
        add(line.weighed, pour.mass);
        if (!pour.lot.empty() && lots.emplace(line.bowl + "\n" + line.name, pour.lot).second)
            line.lots.push_back(pour.lot);
    }
    return out.take();
}

std::string size_words(const Formulary& formulary, const BatchSize& size) {
    if (const Mass* mass = std::get_if<Mass>(&size.amount)) return gram_words(*mass);
    if (const Volume* volume = std::get_if<Volume>(&size.amount))
        return number_words(in_millilitres(*volume)) + " mL";
    const ContainerCount& count = std::get<ContainerCount>(size.amount);
    if (count.container >= formulary.containers.size()) return {};
    return fmt::format("{} {}", number_words(count.count),
                       counted(formulary.containers[count.container].name, count.count));
}

std::string fingerprint(const Formulary& formulary, const Names& names, const Sheet& sheet) {
    if (!formulary.dilutions.empty()) {  // how a line is weighed is no part of the formula
        Choice choice = plain_choice(formulary, names, sheet);
        Sheets plain = expand(formulary, names, choice);
        if (plain.sheets.size() == 1) return fingerprint_of(formulary, plain.sheets.front());
    }
    return fingerprint_of(formulary, sheet);
}

std::vector<RecordReport> report_on(const Formulary& formulary, const Names& names,
                                    std::vector<Record> records) {
    std::vector<RecordReport> out;
    std::map<std::pair<ShadeId, std::vector<Sym>>, Today> known;
    for (Record& record : records) {
        RecordReport& report = out.emplace_back();
        report.record = std::move(record);
        const std::pair product(report.record.shade, report.record.under);
        auto place = known.find(product);
        if (place == known.end())
            place = known.emplace(product, today(formulary, names, report.record)).first;
        tell(formulary, place->second, report);
    }
    return out;
}

}  // namespace levigate
