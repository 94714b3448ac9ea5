#include "skeinfall/report/conversion.hpp"

#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::report {
namespace {

constexpr int figures = 5;

Json text_or_null(std::string_view text) {
    return text.empty() ? Json() : Json(std::string(text));
}

/// Sizes and abbreviations follow the Council's tables, which ask for the credit.
std::string credit_line() {
    std::string out(yarn::class_credit);
    return out += '\n';
}

std::string label(std::string_view set, std::string_view label) {
    return label.empty() ? std::string() : std::string(set) + " " + std::string(label);
}

std::string tool_line(const yarn::ToolSize& size, ToolColumn first) {
    const std::string_view wanted = first == ToolColumn::us ? size.us : size.uk;
    if (first == ToolColumn::mm || wanted.empty() || size.tool == yarn::Tool::steel_hook)
        return yarn::text(size);
    const std::string other = first == ToolColumn::us ? label("UK", size.uk) : label("US", size.us);
    const std::string mm =
        units::figures_text(units::Ratio(size.diameter / units::millimetre), figures) + " mm";
    return label(first == ToolColumn::us ? "US" : "UK", wanted) + " (" + mm +
           (other.empty() ? "" : ", " + other) + ")";
}

Json size_json(const yarn::ToolSize& size) {
    Json out;
    out["mm"] = units::full_digits(units::Ratio(size.diameter / units::millimetre)).value();
    out["us"] = text_or_null(size.us);
    out["uk"] = text_or_null(size.uk);
    out["numbering"] =
        size.tool != yarn::Tool::steel_hook ? Json() : Json(size.second_scale ? "second" : "first");
    out["from_memory"] = size.from_memory;
    out["source"] = std::string(size.source);
    out["note"] = text_or_null(size.note);
    return out;
}

std::string name_text(const yarn::TermName& term) {
    return term.abbreviation == term.name ? term.name : term.abbreviation + " (" + term.name + ")";
}

Json name_json(const yarn::TermName& term) {
    return {{"abbreviation", term.abbreviation}, {"name", term.name}};
}

Json reading_json(const yarn::Term& term) {
    Json out;
    out["written"] = std::string(yarn::text(term.written));
    out["us"] = name_json(term.us);
    out["uk"] = name_json(term.uk);
    out["turning_chains"] = text_or_null(term.turning_chains);
    out["from_memory"] = term.from_memory;
    out["source"] = std::string(term.source);
    out["note"] = text_or_null(term.note);
    return out;
}

}  // namespace

std::string conversion_text(const QuantityAnswer& answer) {
    std::string out;
    for (const QuantityAnswer::Value& value : answer.values)
        out += units::figures_text(value.number, figures) + " " + value.unit + "\n";
    return out;
}

std::string conversion_json(const QuantityAnswer& answer) {
    Json out;
    out["text"] = answer.text;
    out["kind"] = answer.kind;
    out["values"] = Json::array();
    for (const QuantityAnswer::Value& value : answer.values)
        out["values"].push_back(
            {{"unit", value.unit}, {"value", units::full_digits(value.number).value()}});
    out["notes"] = answer.notes;
    return finished(out);
}

std::string tools_text(const yarn::ToolAnswer& answer, ToolColumn first) {
    std::string out;
    for (const auto& size : answer.sizes.empty() ? answer.nearest : answer.sizes)
        out += tool_line(size, first) + "\n";
    return out + credit_line();
}

std::string tools_json(std::string_view text, const yarn::ToolWish& wish,
                       const yarn::ToolAnswer& answer) {
    Json out;
    out["text"] = std::string(text);
    out["kind"] = std::string(yarn::text(wish.tool));
    out["exact"] = !answer.sizes.empty();
    out["sizes"] = Json::array();
    for (const auto& size : answer.sizes.empty() ? answer.nearest : answer.sizes)
        out["sizes"].push_back(size_json(size));
    out["notes"] = answer.notes;
    out["credit"] = std::string(yarn::class_credit);
    return finished(out);
}

std::string term_text(const yarn::Term& term, yarn::Naming to) {
    return std::string(yarn::text(to)) + " " + name_text(term.in(to)) + "\n";
}

std::string term_json(std::string_view text, const yarn::Term& term, yarn::Naming to) {
    Json out;
    out["text"] = std::string(text);
    out["kind"] = "term";
    out["to"] = std::string(yarn::text(to));
    out["abbreviation"] = term.in(to).abbreviation;
    out["name"] = term.in(to).name;
    out.update(reading_json(term));
    return finished(out);
}

std::string meanings_text(const std::vector<yarn::Term>& terms,
                          const std::vector<yarn::Abbreviation>& abbreviations) {
    std::string out;
    for (const yarn::Term& term : terms) {
        if (term.us == term.uk)
            out += "US and UK " + name_text(term.us) + "\n";
        else
            for (const yarn::Naming from : {yarn::Naming::us, yarn::Naming::uk}) {
                const yarn::Naming to =
                    from == yarn::Naming::us ? yarn::Naming::uk : yarn::Naming::us;
                if (term.written == from)
                    out += std::string(yarn::text(from)) + " " + name_text(term.in(from)) + " is " +
                           term_text(term, to);
            }
    }
    for (const yarn::Abbreviation& each : abbreviations)
        out += std::string(each.craft) + ": " + std::string(each.abbreviation) + " = " +
               std::string(each.meaning) + "\n";
    return abbreviations.empty() ? out : out + credit_line();
}

std::string meanings_json(std::string_view text, const std::vector<yarn::Term>& terms,
                          const std::vector<yarn::Abbreviation>& abbreviations) {
    Json out;
    out["text"] = std::string(text);
    out["kind"] = "meaning";
    out["readings"] = Json::array();
    for (const yarn::Term& term : terms) out["readings"].push_back(reading_json(term));
    out["abbreviations"] = Json::array();
    for (const yarn::Abbreviation& each : abbreviations)
        out["abbreviations"].push_back({{"craft", std::string(each.craft)},
                                        {"abbreviation", std::string(each.abbreviation)},
                                        {"meaning", std::string(each.meaning)},
                                        {"from_memory", each.from_memory},
                                        {"source", std::string(each.source)}});
    out["credit"] = std::string(yarn::class_credit);
    return finished(out);
}

}  // namespace skeinfall::report
