#include "interpreter/record/recall.hpp"

#include <algorithm>
#include <deque>
#include <optional>
#include <set>
#include <unordered_map>
#include <unordered_set>
#include <utility>

#include <fmt/format.h>

#include "grammar/names.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/record/record.hpp"

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

/// How what is in the bowls of a record goes on. Names are folded; the shade's own bowl has none.
struct Flow {
    std::unordered_map<std::string, std::vector<std::string>> to;  ///< from bowl to bowl
    std::unordered_map<std::string, std::vector<std::string>> planned;  ///< as it was meant to go
    std::unordered_set<std::string> bowls, poured;
    std::unordered_map<std::string, std::vector<std::size_t>> made;  ///< by name, which of `made`

    Flow(const Formulary& formulary, const Record& record) {
        // What has the lot of another record comes from elsewhere, not from the bowl of its name.
        std::unordered_set<std::string> own{"", folded(record.code)};
        for (std::size_t i = 0; i < record.made.size(); ++i) {
            own.insert(folded(record.made[i].lot));
            made[folded(name_of(formulary, record.made[i]))].push_back(i);
        }
        for (const Pour& pour : record.planned)
            planned[folded(poured_name(formulary, pour))].push_back(
                folded(poured_bowl(formulary, pour)));
        for (const Pour& pour : record.weighed) {
            const std::string name = folded(poured_name(formulary, pour));
            const std::string bowl = folded(poured_bowl(formulary, pour));
            bowls.insert(bowl);
            poured.insert(name);
            if (own.contains(folded(pour.lot))) to[name].push_back(bowl);
        }
    }
};

/// Follows lots from record to record. Each lot and each bowl is followed once, so loops end.
class Search {
public:
    Search(const Formulary& formulary, const std::vector<Record>& records)
        : formulary_(formulary), records_(records), ways_(records.size()), flows_(records.size()),
          reached_(records.size()) {
        for (std::size_t i = 0; i < records.size(); ++i)
            for (std::size_t k = 0; k < records[i].weighed.size(); ++k)
                if (const std::string& lot = records[i].weighed[k].lot; !lot.empty())
                    weighed_[folded(lot)].emplace_back(i, k);
    }

    bool known(const std::string& lot) const { return weighed_.contains(lot); }
    const std::vector<std::string>& ways(std::size_t record) const { return ways_[record]; }
    bool holds(std::size_t record) const { return reached_[record].contains(""); }
    const std::vector<std::string>& others() const { return others_; }
    bool holds_lot(const std::string& lot, const std::string& name) const {
        const auto found = lots_.find(lot);
        return found != lots_.end() &&
               std::any_of(found->second.begin(), found->second.end(),
                           [&](const Lot& one) { return one.of.empty() || one.of == name; });
    }

    void look_for(const std::string& lot, const std::string& of) { add_lot(lot, {of, nowhere}); }
    /// What came of a batch as a whole.
    void look_for(std::size_t record) { reach(record, ""); }

    void follow() {
        while (!open_.empty()) {
            const std::string lot = open_.front();
            open_.pop_front();
            if (const auto found = weighed_.find(lot); found != weighed_.end())
                for (const auto& [record, pour] : found->second) pour_in(record, pour, lot);
        }
    }

private:
    static constexpr std::size_t most_sources = 20;  ///< of one lot; more aren't told apart

    void add_lot(const std::string& lot, const Lot& source) {
        const std::string key = folded(lot);
        std::vector<Lot>& all = lots_[key];
        if (all.size() >= most_sources) return;
        for (const Lot& one : all)
            if (one.from == source.from && one.of == source.of) return;
        all.push_back(source);
        open_.push_back(key);
    }

    const Flow& flow(std::size_t record) {
        auto& out = flows_[record];
        if (!out) out.emplace(formulary_, records_[record]);
        return *out;
    }

    void pour_in(std::size_t record, std::size_t which, const std::string& lot) {
        const Pour& pour = records_[record].weighed[which];
        const std::string name = poured_name(formulary_, pour);
        bool any = false;
        for (const Lot& one : lots_[lot]) {
            if (one.from == record) continue;
            if (!one.of.empty() && one.of != folded(name) && one.of != folded(pour.name)) continue;
            any = true;
            say_way(record, pour, one);
        }
        if (any) reach(record, folded(poured_bowl(formulary_, pour)));
    }

    /// What is looked for is in this bowl, and so in all that it went into.
    void reach(std::size_t record, const std::string& first) {
        const Flow& here = flow(record);
        std::vector<std::string> open{first};
        while (!open.empty()) {
            const std::string bowl = std::move(open.back());
            open.pop_back();
            if (!reached_[record].insert(bowl).second) continue;
            came_of(record, bowl);
            if (bowl.empty()) continue;
            if (const auto on = here.to.find(bowl); on != here.to.end())
                open.insert(open.end(), on->second.begin(), on->second.end());
            // Of a blend that no line pours out, all may have gone where it was meant to go, or
            // into the shade's own bowl.
            if (here.poured.contains(bowl)) continue;
            open.emplace_back();
            if (const auto meant = here.planned.find(bowl); meant != here.planned.end())
                open.insert(open.end(), meant->second.begin(), meant->second.end());
        }
    }

    void came_of(std::size_t record, const std::string& bowl) {
        const Record& batch = records_[record];
        const Flow& here = flow(record);
        if (!bowl.empty()) {
            if (const auto found = here.made.find(bowl); found != here.made.end())
                for (const std::size_t i : found->second) add_made(record, batch.made[i]);
            return;
        }
        if (!batch.code.empty()) add_lot(batch.code, {{}, record});
        for (const Made& made : batch.made)  // what is of a bowl is told by that bowl
            if (!here.bowls.contains(folded(name_of(formulary_, made))) || made.name.empty())
                add_made(record, made);
    }

    void add_made(std::size_t record, const Made& made) {
        others_.push_back(made_words(formulary_, records_[record], made));
        if (!made.lot.empty()) add_lot(made.lot, {{}, record});
    }

    void say_way(std::size_t index, const Pour& pour, const Lot& lot) {
        std::string words = fmt::format("{}, lot {}", poured_name(formulary_, pour), pour.lot);
        if (const std::string bowl = poured_bowl(formulary_, pour); !bowl.empty())
            words += ", in " + bowl;
        if (lot.from != nowhere) {
            const Record& from = records_[lot.from];
            words += fmt::format(", which came of {} on {}",
                                 from.code.empty() ? from.title : "batch " + from.code, from.day);
        }
        if (said_.emplace(index, words).second) ways_[index].push_back(std::move(words));
    }

    const Formulary& formulary_;
    const std::vector<Record>& records_;
    std::vector<std::vector<std::string>> ways_;
    std::vector<std::optional<Flow>> flows_;
    std::vector<std::unordered_set<std::string>> reached_;  ///< bowls of each record that hold it
    std::unordered_map<std::string, std::vector<std::pair<std::size_t, std::size_t>>> weighed_;
    std::unordered_map<std::string, std::vector<Lot>> lots_;
    std::deque<std::string> open_;
    std::vector<std::string> others_;
    std::set<std::pair<std::size_t, std::string>> said_;
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
        out.batch = unquoted(low.starts_with("batch ") ? tidy.substr(6) : tidy);
        if (out.batch.size() > 2 && out.batch.front() == '[' && out.batch.back() == ']')
            out.batch = out.batch.substr(1, out.batch.size() - 2);  // a stamp as it is printed
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
        search.look_for(i);
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
