#pragma once
/// \file
/// What a maker is asked about a make, in the order she thinks of it. One table for every face: a
/// terminal's questions, options of a command line, a form. Table: lib/data/make_questions.csv.

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace skeinfall::project {

/// When a question is worth asking.
enum class AskWhen {
    always,
    stitch,   ///< nothing told the stitch yet
    crochet,  ///< it is crochet
    knit,
    yarn,        ///< the stash does not know the yarn
    no_colour,   ///< no one colour is named
    no_stripes,  ///< it is in one colour
    never,       ///< only where a face offers it by itself
};

struct MakeQuestion {
    std::string_view id;        ///< "make"
    std::string_view argument;  ///< what stands for an answer, "TEXT"; empty for yes or no
    bool many = false;          ///< there may be several answers
    AskWhen when = AskWhen::always;
    std::string_view question;  ///< without its mark
    std::string_view example;
    std::string_view explains;
};

[[nodiscard]] const std::vector<MakeQuestion>& make_questions();
/// Nothing for an id that no question has.
[[nodiscard]] const MakeQuestion* make_question(std::string_view id);

/// Answers by the question's id, as they were written. An answer to a yes or no is an empty text.
class MakeAnswers {
  public:
    void add(std::string_view id, std::string text) {
        all_[std::string(id)].push_back(std::move(text));
    }
    void forget(std::string_view id) { all_.erase(std::string(id)); }
    [[nodiscard]] bool has(std::string_view id) const { return all_.contains(std::string(id)); }
    /// The first answer; nothing when there is none.
    [[nodiscard]] std::optional<std::string> one(std::string_view id) const;
    [[nodiscard]] std::vector<std::string> all(std::string_view id) const;
    [[nodiscard]] bool empty() const { return all_.empty(); }

  private:
    std::map<std::string, std::vector<std::string>, std::less<>> all_;
};

}  // namespace skeinfall::project
