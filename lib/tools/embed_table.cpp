// Turns a CSV table into a C++ header with one struct a row, so that reference data is kept as
// readable tables and compiled once. Usage: embed_table NAME in.csv out.hpp

#include <fstream>
#include <iostream>
#include <iterator>
#include <string>
#include <vector>

#include <csv.h>

namespace {

struct Table {
    std::vector<std::vector<std::string>> rows;
    std::vector<std::string> current;
};

std::string literal(const std::string& text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        out += c == '\n' ? ' ' : c;
    }
    return out + "\"";
}

int fail(const std::string& why) {
    std::cerr << "embed_table: " << why << "\n";
    return 1;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 4) return fail("usage: embed_table NAME in.csv out.hpp");
    const std::string name = argv[1];
    std::ifstream in(argv[2], std::ios::binary);
    if (!in) return fail("cannot read " + std::string(argv[2]));
    const std::string text{std::istreambuf_iterator<char>(in), {}};

    Table table;
    csv_parser parser;
    csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI);
    const auto field = [](void* data, std::size_t size, void* to) {
        static_cast<Table*>(to)->current.emplace_back(static_cast<const char*>(data), size);
    };
    const auto end_of_row = [](int, void* to) {
        auto* t = static_cast<Table*>(to);
        t->rows.push_back(std::move(t->current));
        t->current.clear();
    };
    const bool read =
        csv_parse(&parser, text.data(), text.size(), field, end_of_row, &table) == text.size() &&
        csv_fini(&parser, field, end_of_row, &table) == 0;
    csv_free(&parser);
    if (!read || table.rows.size() < 2) return fail(std::string(argv[2]) + " is not a CSV table");

    const std::vector<std::string>& head = table.rows.front();
    for (std::size_t i = 1; i < table.rows.size(); ++i)
        if (table.rows[i].size() != head.size())
            return fail(std::string(argv[2]) + ": row " + std::to_string(i + 1) + " has " +
                        std::to_string(table.rows[i].size()) + " cells, the header has " +
                        std::to_string(head.size()));

    std::ofstream out(argv[3], std::ios::binary);
    out << "#pragma once\n#include <array>\n#include <string_view>\n\nnamespace skeinfall::data "
           "{\n\n"
        << "struct " << name << "_row {\n";
    for (const std::string& column : head) out << "    std::string_view " << column << ";\n";
    out << "};\n\ninline constexpr std::array<" << name << "_row, " << table.rows.size() - 1 << "> "
        << name << "{{\n";
    for (std::size_t i = 1; i < table.rows.size(); ++i) {
        out << "    {";
        for (const std::string& cell : table.rows[i]) out << literal(cell) << ", ";
        out << "},\n";
    }
    out << "}};\n\n}  // namespace skeinfall::data\n";
    return out.flush() ? 0 : fail("cannot write " + std::string(argv[3]));
}
