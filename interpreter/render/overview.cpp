#include "interpreter/render/overview.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "interpreter/render/amounts.hpp"

namespace levigate {
namespace {

using namespace document;

struct Line {
    IngredientId what;
    Share share;
};

void add_role(std::vector<RoleTotal>& roles, std::string_view role, const Share& share) {
    for (RoleTotal& total : roles)
        if (total.role == role) {
            total.share += share;
            return;
        }
    roles.push_back({role, share});
}

// By the rule of `as much`: an ingredient whose own role it is counts whole, a blend without one
// by what is inside it. What no role covers is counted too, so that the row comes to 100 %.
std::vector<RoleTotal> roles_in(const Formulary& formulary, const std::vector<Line>& lines) {
    std::vector<RoleTotal> roles;
    Share without;
    auto named = [&](Sym role) -> std::string_view {
        if (role >= formulary.role_names.size()) return {};
        return formulary.role_names[role];
    };
    for (const Line& line : lines) {
        const Ingredient& ingredient = formulary.ingredients[line.what];
        if (ingredient.role != no_name) {
            add_role(roles, named(ingredient.role), line.share);
            continue;
        }
        Share left = line.share;
        if (ingredient.kind != Ingredient::Kind::material &&
            ingredient.index < formulary.mixes.size())
            for (const RoleShare& inside : formulary.mixes[ingredient.index].roles) {
                Share part = line.share * inside.share;
                add_role(roles, named(inside.role), part);
                left -= part;
            }
        without += left;
    }
    if (as_fraction(without).sign() > 0) add_role(roles, "", without);
    return roles;
}

std::vector<Line> lines_of(const Sheet& sheet) {
    std::vector<Line> lines;
    if (sheet.bowls.empty()) return lines;
    for (const SheetLine& line : sheet.bowls.back().lines) lines.push_back({line.what, line.share});
    return lines;
}

std::vector<Line> lines_of(const Formula& formula) {
    std::vector<Line> lines;
    if (!formula.solved()) return lines;
    for (std::size_t i = 0; i < formula.parts.size(); ++i)
        lines.push_back({formula.parts[i].what, formula.shares[i]});
    return lines;
}

void add_sheet(const Formulary& formulary, const Sheet& sheet, ShadeOverview& shade) {
    SheetNames names = names_of(formulary, sheet);
    auto same = [&](const OverviewRow& row) {
        return row.variant == names.variant && row.finish == names.finish;
    };
    auto row = std::find_if(shade.rows.begin(), shade.rows.end(), same);
    if (row == shade.rows.end()) {
        std::vector<RoleTotal> roles = roles_in(formulary, lines_of(sheet));
        shade.rows.push_back({names.variant, names.finish, {}, std::move(roles)});
        row = shade.rows.end() - 1;
    }
    row->totals.push_back({names.batch, sheet.total,
                           GramsWriter(sheet.reading).rounded(sheet.total), sheet.estimated});
}

std::string word_or(std::string_view name, std::string_view none) {
    return std::string(name.empty() ? none : name);
}

/// Two places, as on the sheet, save where a role would look like nothing.
std::string role_percent(const Share& share) {
    return in_percent(share).decimal(as_fraction(share) < Exact(1, 1000) ? 4 : 2);
}

std::string roles_cell(const std::vector<RoleTotal>& roles) {
    std::string out;
    for (const RoleTotal& role : roles) {
        if (!out.empty()) out += ", ";
        out += word_or(role.role, "without a role") + " " + role_percent(role.share) + " %";
    }
    return out;
}

Table shade_table(const ShadeOverview& shade) {
    Table table;
    table.columns = {{"variant", Align::left}, {"finish", Align::left}};
    for (const Batch& batch : shade.shade->batches)
        table.columns.push_back({batch.name + ", g", Align::right});
    table.columns.push_back({"made of", Align::left});
    for (const OverviewRow& row : shade.rows) {
        Row cells = {word_or(row.variant, "as written"), word_or(row.finish, "as made")};
        for (const Batch& batch : shade.shade->batches) {
            cells.emplace_back();
            for (const BatchTotal& total : row.totals)
                if (total.batch == batch.name)
                    cells.back() = total.grams + (total.estimated ? " (estimate)" : "");
        }
        cells.push_back(roles_cell(row.roles));
        table.rows.push_back(std::move(cells));
    }
    return table;
}

}  // namespace

Overviews::Overviews(const Formulary& formulary)
    : formulary_(formulary), at_(formulary.shades.size(), formulary.shades.size()) {
    for (std::size_t i = 0; i < formulary.shades.size(); ++i) {
        if (!formulary.shades[i].own) continue;
        at_[i] = shades_.size();
        shades_.push_back({&formulary.shades[i], {}});
    }
}

void Overviews::add(const Sheet& sheet) {
    if (at_[sheet.shade] < shades_.size()) add_sheet(formulary_, sheet, shades_[at_[sheet.shade]]);
}

std::vector<ShadeOverview> Overviews::take() {
    for (ShadeOverview& shade : shades_) {
        if (!shade.rows.empty()) continue;
        for (const Version& version : shade.shade->versions)
            if (!version.broken && version.formula.solved())
                shade.rows.push_back(
                    {version.variant, {}, {}, roles_in(formulary_, lines_of(version.formula))});
    }
    return std::move(shades_);
}

Document overview_document(const std::vector<ShadeOverview>& shades) {
    Document out;
    if (shades.empty()) out.emplace_back(Paragraph{"There is no shade in this file."});
    for (const ShadeOverview& shade : shades) {
        out.emplace_back(Heading{1, shade.shade->name});
        if (shade.rows.empty())
            out.emplace_back(Paragraph{"It can't be made as it stands."});
        else
            out.emplace_back(shade_table(shade));
    }
    return out;
}

}  // namespace levigate
