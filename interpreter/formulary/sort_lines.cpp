// What may stand beside what in one formula, before anything is computed.

#include <algorithm>

#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solving.hpp"

namespace levigate::solving {
namespace {

void clash(Task& task, Code code, std::uint32_t line, std::uint32_t other, std::string message,
           std::string advice, std::string note) {
    const std::vector<Part>& parts = task.formula.parts;
    task.report(code, parts[line].span, std::move(message), std::move(advice))
        .notes.push_back({parts[other].span, std::move(note)});
}

void say_twice(Task& task, std::uint32_t line, std::uint32_t other) {
    const std::vector<Part>& parts = task.formula.parts;
    task.report(Code::name_twice, parts[line].name_span,
                task.name(line) + " stands twice in " + task.whose + ".",
                "Make one line of the two.")
        .notes.push_back({parts[other].name_span, "already here"});
}

void find_twice(Task& task) {
    const std::vector<Part>& parts = task.formula.parts;
    auto count = static_cast<std::uint32_t>(parts.size());
    if (count <= 16) {
        for (std::uint32_t i = 1; i < count; ++i)
            for (std::uint32_t k = 0; k < i; ++k)
                if (parts[i].what == parts[k].what && parts[i].what != no_ingredient) {
                    say_twice(task, i, k);
                    break;
                }
        return;
    }
    std::vector<std::pair<IngredientId, std::uint32_t>> places;
    places.reserve(count);
    for (std::uint32_t i = 0; i < count; ++i)
        if (parts[i].what != no_ingredient) places.push_back({parts[i].what, i});
    std::sort(places.begin(), places.end());
    for (std::size_t i = 1, first = 0; i < places.size(); ++i) {
        if (places[i].first != places[first].first)
            first = i;
        else
            say_twice(task, places[i].second, places[first].second);
    }
}

/// What to do about weights of two sorts, with the line in grams as a share.
std::string as_share_advice(const Task& task, std::uint32_t in_grams_line) {
    const Weight& weight = std::get<Weight>(task.formula.parts[in_grams_line].amount);
    return "Write all of them in one way; or write this one as a share of the whole, such as `" +
           exact_words(in_grams(weight.mass)) + " g per 100 g   " + task.name(in_grams_line) + "`.";
}

void note_weight(Task& task, std::uint32_t line, bool& told) {
    const std::vector<Part>& parts = task.formula.parts;
    if (task.weight == no_line) task.weight = line;
    const Weight& first = std::get<Weight>(parts[task.weight].amount);
    const Weight& here = std::get<Weight>(parts[line].amount);
    if (first.parts == here.parts || told) return;
    told = true;
    std::uint32_t weighed = here.parts ? task.weight : line;
    std::uint32_t in_parts = here.parts ? line : task.weight;
    clash(task, Code::parts_beside_grams, weighed, in_parts,
          task.name(in_parts) + " is measured in parts and " + task.name(weighed) +
              " by weight: nothing says how much a part is.",
          as_share_advice(task, weighed), "in parts here");
}

void note_rest(Task& task, std::uint32_t line) {
    if (task.rest == no_line) {
        task.rest = line;
        return;
    }
    clash(task, Code::rest_twice, line, task.rest,
          "Two lines of " + task.whose + " take the rest: nothing says which takes how much.",
          "Give one of them an amount.", "the rest is taken here");
}

void note_enough(Task& task, std::uint32_t line) {
    if (task.enough == no_line) {
        task.enough = line;
        return;
    }
    clash(task, Code::enough_misplaced, line, task.enough,
          task.whose + " has two `enough` lines, and only one can be worked out.",
          "Give one of them an amount.", "the first is here");
}

/// What an unknown stands beside that it can't.
void judge_company(Task& task) {
    if (task.enough != no_line) {
        std::uint32_t other = task.rest != no_line ? task.rest : task.share;
        if (other != no_line)
            clash(task, Code::enough_misplaced, task.enough, other,
                  "`enough` works in a formula of weights only, and this one has " +
                      std::string(other == task.rest ? "a `rest`." : "shares."),
                  "Write the other lines in grams or in parts.",
                  other == task.rest ? "the rest is taken here" : "a share here");
    } else if (task.rest != no_line && task.weight != no_line) {
        clash(task, Code::rest_beside_weights, task.rest, task.weight,
              "The rest of " + task.whose +
                  " can't be told beside weights: these take all that the shares leave.",
              "Write the weights as shares, or give " + task.name(task.rest) + " a weight too.",
              "a weight here");
    }
}

}  // namespace

void sort_lines(Task& task) {
    const std::vector<Part>& parts = task.formula.parts;
    bool told = false;
    for (std::uint32_t i = 0; i < parts.size(); ++i) {
        const PartAmount& amount = parts[i].amount;
        if (std::holds_alternative<Share>(amount)) task.share = std::min(task.share, i);
        if (std::holds_alternative<Weight>(amount)) note_weight(task, i, told);
        if (std::holds_alternative<Rest>(amount)) note_rest(task, i);
        if (std::holds_alternative<AsMuch>(amount)) task.relative = std::min(task.relative, i);
        if (std::holds_alternative<Enough>(amount)) note_enough(task, i);
    }
    judge_company(task);
    find_twice(task);
}

}  // namespace levigate::solving
