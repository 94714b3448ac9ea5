#pragma once
/// \file
/// Answers of an interview that ended early.

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/project/make_questions.hpp"

#include "command.hpp"

namespace skeinfall::cli {

/// One a line: question, tab, answer. Each project that is to be written has its own.
class Draft {
  public:
    Draft(const std::filesystem::path& folder, std::string project, const Values& values,
          const World& world);

    /// How to go on with it.
    [[nodiscard]] std::string command() const;
    /// Projects begun under other names.
    [[nodiscard]] std::vector<std::string> others() const;
    [[nodiscard]] project::MakeAnswers read() const;
    void write(const project::MakeAnswers& answers) const;
    void forget() const;
    /// Says what becomes of an interview that ends early.
    void tell_kept() const;

  private:
    std::string project_;
    std::filesystem::path file_;
    const Values& values_;
    const World& world_;
};

}  // namespace skeinfall::cli
