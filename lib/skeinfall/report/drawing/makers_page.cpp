#include "skeinfall/report/makers_page.hpp"

#include <optional>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/detail/html.hpp"
#include "skeinfall/report/detail/make_drawing.hpp"
#include "skeinfall/report/detail/offer_words.hpp"
#include "skeinfall/report/detail/page_data.hpp"

namespace skeinfall::report {
namespace {

using materials::Offer;
using materials::OfferedSize;

/// {at: [width, length], widths, cells: [[line]] or null}, to stand in a page.
std::string tables_of(const MakersPage& page, const MaterialsWords& words) {
    nlohmann::ordered_json out;
    out["at"] = {page.offer.grid || page.offer.piece ? page.offer.across.written : page.need.size,
                 page.offer.along.written};
    if (page.offer.grid)
        out["at"] = {page.need.size / page.offer.along.size(),
                     page.need.size % page.offer.along.size()};
    out["lengths"] = page.offer.along.size();
    out["cells"] = nlohmann::ordered_json::array();
    for (const std::optional<OfferedSize>& size : page.offer.sizes)
        if (size)
            out["cells"].push_back(lines_of(page.project, *size, words));
        else
            out["cells"].push_back(nullptr);
    return json_in_page(out);
}

TemplateList options_of(const Choice& choice) {
    TemplateList out;
    for (std::size_t i = 0; i < choice.labels.size(); ++i) {
        TemplateData one;
        one.set("at", std::to_string(i));
        one.set("label", choice.labels[i]);
        out.push_back(std::move(one));
    }
    return out;
}

void put_choices(TemplateData& data, const Choices& choices) {
    const auto put = [&](const std::string& key, const Choice& choice) {
        TemplateData one(false);
        if (choice.labels.size() > 1) {
            one = TemplateData();
            one.set("name", choice.name);
            one.set("options", options_of(choice));
        }
        data.set(key, one);
    };
    put("across", choices.across);
    put("along", choices.along);
    data.set("choose", choices.across.labels.size() > 1 || choices.along.labels.size() > 1);
}

/// The size that is shown before anything is chosen.
const OfferedSize& first_of(const MakersPage& page) {
    const Offer& offer = page.offer;
    return offer.piece ? *offer.at(offer.across.written, offer.along.written)
                       : *offer.sizes.at(page.need.size);
}

}  // namespace

std::string makers_page_html(const MakersPage& page) {
    const units::WithNumberStyle in_force(page.style.numbers);
    const MaterialsWords words(page.style.language, page.style.terms.value_or(page.project.terms));
    const MaterialsDocument document = materials_document(page.section, page.style);
    TemplateData data;
    data.set("title", shown_apart(page.project.title));
    data.set("style", page_style());
    data.set("script", template_text("makers_page.js"));
    const std::string tables = tables_of(page, words);
    data.set("tables", tables);
    data.set("make", fingerprint_of(page.project.title + tables));
    put_choices(data, choices_of(page.offer));
    data.set("notes", texts_of(notes_of(page.project, page.offer)));
    data.set("fitted", page.offer.piece.has_value());
    TemplateList lines;
    const std::vector<std::string> terms = terms_of(page.project, page.offer);
    const std::vector<std::string> texts = lines_of(page.project, first_of(page), words);
    for (std::size_t i = 0; i < terms.size(); ++i) {
        TemplateData line;
        line.set("term", terms[i]);
        line.set("text", texts[i]);
        lines.push_back(std::move(line));
    }
    data.set("lines", lines);
    TemplateList yarn;
    for (const PageTable& table : yarn_tables(page.project, page.offer, words))
        yarn.push_back(table_data(table));
    data.set("has_tables", !yarn.empty());
    data.set("motifs", page.offer.motifs);
    data.set("yarn_tables", yarn);
    const bool drawn = !page.project.pieces.empty();
    data.set("drawn", drawn);
    const std::vector<std::string>& sizes = page.project.sizes;
    data.set("drawn_size",
             sizes.size() > 1 ? texts_of({shown_apart(sizes[page.need.size])}) : TemplateList());
    if (drawn) {
        const auto picture = [&](PictureWidth width, const char* prefix) {
            return inline_svg(
                make_picture_at(page.project, page.need, {}, PictureFormat::web, width), prefix);
        };
        data.set("picture", picture(PictureWidth::wide, "m-w"));
        data.set("picture_narrow", picture(PictureWidth::narrow, "m-n"));
    }
    data.set("other_language", page.style.language != "en");
    data.set("language", document.language);
    data.set("materials_heading", document.heading);
    data.set("level", "3");
    put_materials(data, document, "");
    return rendered("makers_page.html", std::move(data));
}

}  // namespace skeinfall::report
