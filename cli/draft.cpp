#include "draft.hpp"

#include <algorithm>
#include <fstream>
#include <ostream>
#include <utility>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"

#include "output_file.hpp"

namespace skeinfall::cli {
namespace {

constexpr std::string_view draft_prefix = "unfinished-";

std::string draft_for(const std::string& project) {
    if (project.empty()) return std::string(draft_prefix) + "project.txt";
    std::error_code none;
    std::string name;
    for (const char c : std::filesystem::absolute(project, none).lexically_normal().string())
        name += c == '/' ? '-' : c;
    constexpr std::size_t longest = 200;
    if (name.size() > longest) name.erase(0, name.size() - longest);
    return std::string(draft_prefix) + name + ".txt";
}

}  // namespace

Draft::Draft(const std::filesystem::path& folder, std::string project, const Values& values,
             const World& world)
    : project_(std::move(project)),
      file_(folder / draft_for(project_)),
      values_(values),
      world_(world) {}

std::string Draft::command() const {
    return "skeinfall new" + (project_.empty() ? "" : " " + base::shown_inert(project_));
}

std::vector<std::string> Draft::others() const {
    std::vector<std::string> out;
    std::error_code none;
    for (std::filesystem::directory_iterator at(file_.parent_path(), none), end; !none && at != end;
         at.increment(none)) {
        const std::string name = at->path().filename().string();
        if (!name.starts_with(draft_prefix) || at->path() == file_) continue;
        std::ifstream in(at->path(), std::ios::binary);
        std::string line;
        const std::string key = "file\t";
        out.push_back(std::getline(in, line) && line.starts_with(key) &&
                              !base::first_invalid_utf8(line)
                          ? " " + line.substr(key.size())
                          : std::string());
    }
    std::sort(out.begin(), out.end());
    return out;
}

project::MakeAnswers Draft::read() const {
    project::MakeAnswers answers;
    std::ifstream in(file_, std::ios::binary);
    for (std::string line; std::getline(in, line);) {
        const std::size_t tab = line.find('\t');
        if (tab == std::string::npos || base::first_invalid_utf8(line)) continue;
        const std::string id = line.substr(0, tab);
        if (project::make_question(id) != nullptr) answers.add(id, line.substr(tab + 1));
    }
    return answers;
}

void Draft::write(const project::MakeAnswers& answers) const {
    std::string text = project_.empty() ? "" : "file\t" + project_ + "\n";
    for (const project::MakeQuestion& question : project::make_questions())
        for (const std::string& answer : answers.all(question.id))
            text += std::string(question.id) + "\t" + answer + "\n";
    std::error_code ignored;
    std::filesystem::create_directories(file_.parent_path(), ignored);
    std::filesystem::remove(file_, ignored);
    write_output("stash", file_.string(), text, values_, world_);
}

void Draft::forget() const {
    std::error_code ignored;
    std::filesystem::remove(file_, ignored);
}

void Draft::tell_kept() const {
    if (read().empty())
        *world_.err << "\nNothing was answered, so nothing is kept.\n";
    else
        *world_.err << "\nWhat you answered is kept; \"" << command() << "\" goes on with it.\n";
}

}  // namespace skeinfall::cli
