#include "interpreter/record/recall.hpp"

#include <algorithm>
#include <deque>
#include <map>
#include <set>
#include <unordered_map>
#include <utility>

#include <fmt/format.h>

#include "grammar/names.hpp"
#include "interpreter/formulary/say.hpp"

namespace levigate {
namespace {

constexpr std::size_t nowhere = static_cast<std::size_t>(-1);

std::string folded(std::string_view text) {
    std::string out;
    fold_name(text, out);
    return out;
}

std::string unquoted(std::string text) {
    return text.size() > 1 && text.front() == '"' && text.back() == '"'
               ? text.substr(1, text.size() - 2)
               : text;
}

std::string name_of(const Formulary& formulary, const Pour& pour) {
    return pour.what == no_ingredient ? pour.name : formulary.name(pour.what);
}
std::string bowl_of(const Formulary& formulary, const Pour& pour) {
    return pour.into == no_ingredient ? pour.bowl : formulary.name(pour.into);
}
std::string name_of(const Formulary& formulary, const Made& made) {
    return made.what == no_ingredient ? made.name : formulary.name(made.what);
}

/// A lot that holds what is looked for, and the record that it came of.
struct Lot {
    std::string of;  ///< folded; empty: of whatever is called so
    std::size_t from = nowhere;
};

std::string made_words(const Formulary& formulary, const Record& record, const Made& made) {
    const std::string name = made.name.empty() ? "" : " " + name_of(formulary, made);
    return fmt::format("{}{}{}{}, made on {}{}", made.amount, name,
                       made.lot.empty() ? "" : ", lot ", made.lot, record.day,
                       record.code.empty() ? "" : " (batch " + record.code + ")");
}

/// Follows lots from record to record. Each is followed once, so loops end.
class Search {
public:
    Search(const Formulary& formulary, const std::vector<Record>& records)
        : formulary_(formulary), records_(records), ways_(records.size()),
          holds_(records.size(), false), bowls_(records.size()) {
        for (std::size_t i = 0; i < records.size(); ++i)
            for (const Pour& pour : records[i].weighed)
                if (!pour.lot.empty()) weighed_[folded(pour.lot)].insert(i);
    }

    bool known(const std::string& lot) const { return weighed_.contains(lot); }

    void look_for(const std::string& lot, const std::string& of) { add_lot(lot, of, nowhere); }

    /// All that came of a batch holds it.
    void come_of(std::size_t record) {
        holds_[record] = true;
        const Record& batch = records_[record];
        if (!batch.code.empty()) add_lot(batch.code, {}, record);
        for (const Made& made : batch.made)
            if (!is_bowl(batch, folded(name_of(formulary_, made)))) add_made(record, made);
    }
    void follow() {
        while (!open_.empty()) {
            const std::string lot = open_.front();
            open_.pop_front();
            if (const auto found = weighed_.find(lot); found != weighed_.end())
                for (const std::size_t record : found->second) into(record, lot);
        }
    }

    const std::vector<std::string>& ways(std::size_t record) const { return ways_[record]; }
    bool holds(std::size_t record) const { return holds_[record]; }
    const std::vector<std::string>& others() const { return others_; }
    bool holds_lot(const std::string& lot, const std::string& name) const {
        const auto found = lots_.find(lot);
        return found != lots_.end() &&
               std::any_of(found->second.begin(), found->second.end(), [&](const Lot& one) {
                   return one.of.empty() || one.of == name;
               });
    }

private:
    bool is_bowl(const Record& record, const std::string& name) const {
        return !name.empty() &&
               std::any_of(record.weighed.begin(), record.weighed.end(), [&](const Pour& pour) {
                   return folded(bowl_of(formulary_, pour)) == name;
               });
    }

    void add_lot(const std::string& lot, const std::string& of, std::size_t from) {
        const std::string key = folded(lot);
        std::vector<Lot>& all = lots_[key];
        for (const Lot& one : all)
            if (one.from == from && one.of == of) return;
        all.push_back({of, from});
        open_.push_back(key);
    }
    void add_made(std::size_t record, const Made& made) {
        const std::string words = made_words(formulary_, records_[record], made);
        if (!said_.insert(words).second) return;
        others_.push_back(words);
        if (!made.lot.empty()) add_lot(made.lot, {}, record);
    }

    /// The pours of this lot go into their bowls, those into others, and so on to the shade's own.
    void into(std::size_t index, const std::string& lot) {
        const Record& record = records_[index];
        std::set<std::string>& bowls = bowls_[index];
        const std::size_t before = bowls.size();
        for (const Pour& pour : record.weighed) {
            if (folded(pour.lot) != lot) continue;
            const std::string name = name_of(formulary_, pour);
            for (const Lot& one : lots_[lot]) {
                if (one.from == index) continue;
                if (!one.of.empty() && one.of != folded(name) && one.of != folded(pour.name))
                    continue;
                bowls.insert(folded(bowl_of(formulary_, pour)));
                say_way(index, pour, one);
            }
        }
        if (bowls.size() == before) return;
        spread(record, bowls);
        if (bowls.contains("")) come_of(index);
        for (const Made& made : record.made)
            if (bowls.contains(folded(name_of(formulary_, made))) && !made.name.empty())
                add_made(index, made);
    }

    void say_way(std::size_t index, const Pour& pour, const Lot& lot) {
        std::string words = fmt::format("{}, lot {}", name_of(formulary_, pour), pour.lot);
        if (const std::string bowl = bowl_of(formulary_, pour); !bowl.empty())
            words += ", in " + bowl;
        if (lot.from != nowhere) {
            const Record& from = records_[lot.from];
            words += fmt::format(", which came of {} on {}",
                                 from.code.empty() ? from.title : "batch " + from.code, from.day);
        }
        std::vector<std::string>& all = ways_[index];
        if (std::find(all.begin(), all.end(), words) == all.end()) all.push_back(std::move(words));
    }

    /// True of a lot that this record itself made, or that is not told: it comes from this bowl.
    bool own(const Record& record, const Pour& pour) const {
        if (pour.lot.empty() || folded(pour.lot) == folded(record.code)) return true;
        return std::any_of(record.made.begin(), record.made.end(), [&](const Made& made) {
            return folded(made.lot) == folded(pour.lot);
        });
    }

    void spread(const Record& record, std::set<std::string>& bowls) const {
        for (bool more = true; more;) {
            more = false;
            for (const Pour& pour : record.weighed)
                if (bowls.contains(folded(name_of(formulary_, pour))) && own(record, pour))
                    more |= bowls.insert(folded(bowl_of(formulary_, pour))).second;
        }
        // Of a blend that no line pours out, all may have gone into the shade's own bowl.
        for (const std::string& bowl : bowls)
            if (!bowl.empty() &&
                std::none_of(record.weighed.begin(), record.weighed.end(), [&](const Pour& pour) {
                    return folded(name_of(formulary_, pour)) == bowl;
                })) {
                bowls.insert("");
                return;
            }
    }

    const Formulary& formulary_;
    const std::vector<Record>& records_;
    std::vector<std::vector<std::string>> ways_;
    std::vector<bool> holds_;
    std::vector<std::set<std::string>> bowls_;  ///< of each record those that hold it, folded
    std::unordered_map<std::string, std::set<std::size_t>> weighed_;  ///< lots, and where they went
    std::unordered_map<std::string, std::vector<Lot>> lots_;
    std::deque<std::string> open_;
    std::vector<std::string> others_;
    std::set<std::string> said_;
};

bool goes_out(const Formulary& formulary, const Record& record) {
    if (!formulary.edition || record.shade == nothing) return false;
    const std::vector<Sym>& listed = formulary.edition->shades;
    const Shade& shade = formulary.shades[record.shade];
    return listed.empty() || std::any_of(listed.begin(), listed.end(), [&](Sym one) {
               return one == shade.sym || one == shade.family.sym;
           });
}

void add_shelf(const Formulary& formulary, const Search& search, Recall& out) {
    for (const Stock& stock : formulary.shelf) {
        if (stock.material == no_ingredient || stock.lot.sym == no_name) continue;
        const std::string& name = formulary.name(stock.material);
        if (search.holds_lot(folded(stock.lot.name), folded(name)))
            out.shelf.push_back(fmt::format("{} {}, lot {}", gram_words(grams(stock.amount)), name,
                                            stock.lot.name));
    }
}

}  // namespace

RecallOrder recall_order(std::string_view text) {
    const std::string tidy = tidy_name(text), low = folded(text);
    RecallOrder out;
    if (low.starts_with("lot ")) {
        out.lot = unquoted(tidy_name(std::string_view(tidy).substr(4)));
    } else if (const std::size_t at = tidy.find(" lot "); at != tidy.npos) {
        out.of = tidy_name(std::string_view(tidy).substr(0, at));
        if (out.of.ends_with(',')) out.of.pop_back();
        out.of = unquoted(out.of);
        out.lot = unquoted(tidy.substr(at + 5));
    } else {
        out.batch = unquoted(tidy);
    }
    return out;
}

Recall recall(const Formulary& formulary, const std::vector<Record>& records, RecallOrder order) {
    Recall out;
    Search search(formulary, records);
    std::vector<bool> itself(records.size(), false);
    const std::string batch = folded(order.batch);
    bool any = false;
    for (std::size_t i = 0; !batch.empty() && i < records.size(); ++i) {
        const Record& one = records[i];
        if (folded(one.code) != batch && (one.stamp.empty() || one.stamp != batch)) continue;
        any = itself[i] = true;
        search.come_of(i);
    }
    if (!any && !batch.empty() && search.known(batch)) order.lot = std::exchange(order.batch, {});
    if (!any && !order.lot.empty()) search.look_for(order.lot, folded(order.of));
    search.follow();
    for (std::size_t i = 0; i < records.size(); ++i) {
        if (!search.holds(i)) continue;
        out.batches.push_back({i, itself[i], search.ways(i)});
        out.in_edition.push_back(goes_out(formulary, records[i]));
    }
    out.others = search.others();
    add_shelf(formulary, search, out);
    if (formulary.edition) {
        out.edition = formulary.edition->title;
        out.edition_date = formulary.edition->date;
    }
    out.order = std::move(order);
    return out;
}

}  // namespace levigate
