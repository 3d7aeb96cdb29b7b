// Lines that are as much as others. Each looks at one node: another line, or all that is of a
// role, which is a node of its own so that many lines may look at it at no cost. Worked out depth
// first, without recursion; a node that is met while it is open closes a loop.

#include <algorithm>

#include "grammar/near.hpp"
#include "interpreter/formulary/say.hpp"
#include "interpreter/formulary/solving.hpp"
#include "interpreter/formulary/written_name.hpp"

namespace levigate::solving {
namespace {

struct Member {
    std::uint32_t line = no_line;
    Share share;  ///< how much of the line is of the role
};
struct RoleNode {
    Sym role = no_name;
    std::vector<Member> members = {};
    Affine sum = {};
};
enum class State : std::uint8_t { unseen, open, done, failed };
struct Frame {
    std::uint32_t node;
    std::size_t next = 0;
};

/// Nodes are numbered lines first, then roles.
struct Graph {
    Task& task;
    std::vector<std::pair<IngredientId, std::uint32_t>> places;  // sorted
    std::vector<RoleNode> roles;                                 // sorted
    std::vector<State> states;
    std::vector<Frame> open;

    std::uint32_t count() const { return static_cast<std::uint32_t>(task.lines.size()); }
    bool is_role(std::uint32_t node) const { return node >= count(); }
    const AsMuch* relative(std::uint32_t line) const {
        return std::get_if<AsMuch>(&task.formula.parts[line].amount);
    }
};

RoleNode* find_role(Graph& graph, Sym role) {
    auto at = std::lower_bound(graph.roles.begin(), graph.roles.end(), role,
                               [](const RoleNode& node, Sym sym) { return node.role < sym; });
    return at != graph.roles.end() && at->role == role ? &*at : nullptr;
}

void add_member(Graph& graph, Sym role, std::uint32_t line, const Share& part) {
    if (RoleNode* node = role == no_name ? nullptr : find_role(graph, role))
        node->members.push_back({line, part});
}

void collect(Graph& graph) {
    const Formula& formula = graph.task.formula;
    for (std::uint32_t i = 0; i < graph.count(); ++i) {
        graph.places.push_back({formula.parts[i].what, i});
        const AsMuch* relative = graph.relative(i);
        if (relative && relative->ref.kind == Ref::Kind::role)
            graph.roles.push_back({relative->ref.role});
    }
    auto by_role = [](const RoleNode& a, const RoleNode& b) { return a.role < b.role; };
    auto same = [](const RoleNode& a, const RoleNode& b) { return a.role == b.role; };
    std::sort(graph.places.begin(), graph.places.end());
    std::sort(graph.roles.begin(), graph.roles.end(), by_role);
    graph.roles.erase(std::unique(graph.roles.begin(), graph.roles.end(), same), graph.roles.end());
    graph.states.assign(graph.count() + graph.roles.size(), State::unseen);
    if (graph.roles.empty()) return;
    for (std::uint32_t i = 0; i < graph.count(); ++i) {
        IngredientId what = formula.parts[i].what;
        Sym own = graph.task.formulary.ingredients[what].role;
        add_member(graph, own, i, share(1));
        if (const Mix* mix = mix_of(graph.task.formulary, what))
            for (const RoleShare& inside : mix->roles)
                if (inside.role != own && inside.share != Share())
                    add_member(graph, inside.role, i, inside.share);
    }
}

void say_no_line(Task& task, const Ref& ref) {
    std::string name = ref_words(task.formulary, task.names, ref);
    std::string message = "No line of " + task.whose + " is " + name;
    if (ref.kind == Ref::Kind::ingredient) {
        IngredientId holder = holder_of(task.formulary, task.formula, ref.ingredient);
        if (holder != no_ingredient)
            message += "; it stands inside " + task.formulary.name(holder) + " only";
    }
    task.report(Code::reference_unknown, ref.span, message + ".",
                "Name another line of this formula, or a role such as `the base`.");
}

void say_no_role(Task& task, const Ref& ref) {
    std::string_view wanted = task.names.folded(ref.role);
    Nearest nearest(wanted);
    for (const Part& part : task.formula.parts) {
        Sym own = task.formulary.ingredients[part.what].role;
        if (own != no_name) nearest.offer(task.names.folded(own), own);
        // The line that gives the role may be the one that was lost, or stand in the other block.
        if (task.formulary.ingredients[part.what].damaged || ambiguous(task.formulary, part))
            return;
    }
    Finding& finding = task.report(Code::role_empty, ref.span,
                                   task.whose + " holds nothing whose role is `" +
                                       role_words(task.formulary, task.names, ref.role) + "`.");
    for (const std::size_t own : nearest.best())
        finding.fixes.push_back(possible_fix(
            ref.span,
            "the " + written_name(role_words(task.formulary, task.names, static_cast<Sym>(own)))));
    if (finding.fixes.empty())
        finding.advice = role_advice(task.formulary, task.names, task.formula, ref.role) +
                         "; or name a line instead.";
}

/// The node that a relative line looks at; no_line, and said so, where there is none.
std::uint32_t target(Graph& graph, std::uint32_t line) {
    const Ref& ref = graph.relative(line)->ref;
    if (ref.kind == Ref::Kind::role) {
        RoleNode* node = find_role(graph, ref.role);
        if (node && !node->members.empty())
            return graph.count() + static_cast<std::uint32_t>(node - graph.roles.data());
        say_no_role(graph.task, ref);
        return no_line;
    }
    if (ref.kind == Ref::Kind::ingredient) {
        std::pair<IngredientId, std::uint32_t> first{ref.ingredient, 0};
        auto at = std::lower_bound(graph.places.begin(), graph.places.end(), first);
        if (at != graph.places.end() && at->first == ref.ingredient) return at->second;
    }
    say_no_line(graph.task, ref);
    return no_line;
}

/// `node` is open already: everything above it on the stack, and it, go round in a circle.
void say_loop(Graph& graph, std::uint32_t node) {
    Task& task = graph.task;
    std::size_t begin = graph.open.size();
    while (begin > 0 && graph.open[begin - 1].node != node) --begin;
    std::vector<std::uint32_t> lines;
    for (std::size_t i = begin - 1; i < graph.open.size(); ++i)
        if (!graph.is_role(graph.open[i].node)) lines.push_back(graph.open[i].node);
    std::sort(lines.begin(), lines.end());
    std::vector<std::string> names;
    for (std::uint32_t line : lines) names.push_back(task.name(line));
    const Part& first = task.formula.parts[lines.front()];
    std::string message;
    if (lines.size() == 1) {
        message = "The amount of " + names[0] + " depends on itself";
        const Ref& ref = graph.relative(lines[0])->ref;
        if (ref.kind == Ref::Kind::role)
            message += ": it belongs to " + ref_words(task.formulary, task.names, ref);
    } else {
        message = "The amounts of " + list_words(names) + " depend on each other";
    }
    Finding& finding = task.report(Code::relative_loop, first.span, message + ".",
                                   "Give one of these lines an amount of its own.");
    for (std::size_t i = 1; i < lines.size() && i < 6; ++i)
        finding.notes.push_back({task.formula.parts[lines[i]].span, "and this one"});
}

/// The next node that the one on top needs, or no_line when it has all. False where it fails.
bool next_need(Graph& graph, Frame& top, std::uint32_t& need) {
    need = no_line;
    if (!graph.is_role(top.node)) {
        if (!graph.relative(top.node) || top.next++ > 0) return true;
        need = target(graph, top.node);
        return need != no_line;
    }
    const std::vector<Member>& members = graph.roles[top.node - graph.count()].members;
    if (top.next < members.size()) need = members[top.next++].line;
    return true;
}

/// All that the node needs is known.
void close(Graph& graph, std::uint32_t node) {
    Task& task = graph.task;
    if (graph.is_role(node)) {
        RoleNode& role = graph.roles[node - graph.count()];
        for (const Member& member : role.members) {
            const Exact& part = as_fraction(member.share);
            role.sum.fixed += part * task.lines[member.line].fixed;
            role.sum.times += part * task.lines[member.line].times;
        }
    } else if (const AsMuch* relative = graph.relative(node)) {
        std::uint32_t of = target(graph, node);
        const Affine& seen =
            graph.is_role(of) ? graph.roles[of - graph.count()].sum : task.lines[of];
        task.lines[node] = {relative->factor * seen.fixed, relative->factor * seen.times};
    }
    graph.states[node] = State::done;
}

void fail_open(Graph& graph) {
    for (const Frame& frame : graph.open) graph.states[frame.node] = State::failed;
    graph.open.clear();
}

bool settle_from(Graph& graph, std::uint32_t line) {
    if (graph.states[line] == State::failed) return false;
    if (graph.states[line] == State::done) return true;
    graph.open.push_back({line});
    graph.states[line] = State::open;
    while (!graph.open.empty()) {
        std::uint32_t node = graph.open.back().node, need = no_line;
        bool fine = next_need(graph, graph.open.back(), need);
        if (fine && need == no_line) {
            close(graph, node);
            graph.open.pop_back();
            continue;
        }
        State state = fine ? graph.states[need] : State::failed;
        if (state == State::done) continue;
        if (state == State::unseen) {
            graph.states[need] = State::open;
            graph.open.push_back({need});
            continue;
        }
        if (state == State::open) say_loop(graph, need);
        fail_open(graph);
        return false;
    }
    return true;
}

}  // namespace

bool settle_relative(Task& task) {
    if (task.relative == no_line) return true;
    Graph graph{task, {}, {}, {}, {}};
    collect(graph);
    bool fine = true;
    for (std::uint32_t i = task.relative; i < graph.count(); ++i)
        if (graph.relative(i)) fine = settle_from(graph, i) && fine;
    return fine;
}

}  // namespace levigate::solving
