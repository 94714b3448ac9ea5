#include "skeinfall/project/make_questions.hpp"

#include <algorithm>

#include "skeinfall/data/make_questions.hpp"

namespace skeinfall::project {
namespace {

AskWhen when_of(std::string_view word) {
    if (word == "stitch") return AskWhen::stitch;
    if (word == "crochet") return AskWhen::crochet;
    if (word == "knit") return AskWhen::knit;
    if (word == "yarn") return AskWhen::yarn;
    if (word == "no_colour") return AskWhen::no_colour;
    if (word == "no_stripes") return AskWhen::no_stripes;
    if (word == "never") return AskWhen::never;
    return AskWhen::always;
}

}  // namespace

const std::vector<MakeQuestion>& make_questions() {
    static const std::vector<MakeQuestion> questions = [] {
        std::vector<MakeQuestion> out;
        for (const auto& row : data::make_questions)
            out.push_back({row.id, row.argument, std::string_view(row.many) == "yes",
                           when_of(row.when), row.question, row.example, row.explains});
        return out;
    }();
    return questions;
}

const MakeQuestion* make_question(std::string_view id) {
    const auto& all = make_questions();
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const MakeQuestion& one) { return one.id == id; });
    return found == all.end() ? nullptr : &*found;
}

std::optional<std::string> MakeAnswers::one(std::string_view id) const {
    const auto found = all_.find(id);
    if (found == all_.end() || found->second.empty()) return std::nullopt;
    return found->second.front();
}

std::vector<std::string> MakeAnswers::all(std::string_view id) const {
    const auto found = all_.find(id);
    return found == all_.end() ? std::vector<std::string>() : found->second;
}

}  // namespace skeinfall::project
