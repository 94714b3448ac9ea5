#include "skeinfall/store/pages.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cstring>
#include <fstream>
#include <iterator>
#include <optional>
#include <utility>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"

namespace skeinfall::store {
namespace {

constexpr std::size_t header_size = 100;
constexpr std::size_t least_page = 512;
constexpr std::size_t largest_page = 65536;
constexpr std::uint8_t table_leaf = 13;
constexpr std::size_t leaf_header = 8;
constexpr std::size_t longest_payload = std::size_t{16} * 1024 * 1024;

std::uint64_t big_endian(std::string_view bytes) {
    std::uint64_t out = 0;
    for (const char c : bytes) out = (out << 8U) | static_cast<std::uint8_t>(c);
    return out;
}

std::uint64_t number_at(std::string_view bytes, std::size_t at, std::size_t size) {
    return at + size > bytes.size() ? 0 : big_endian(bytes.substr(at, size));
}

/// One to nine bytes, seven bits each, the ninth whole.
std::optional<std::uint64_t> varint(std::string_view bytes, std::size_t& at) {
    std::uint64_t out = 0;
    for (int i = 0; i < 9; ++i) {
        if (at >= bytes.size()) return std::nullopt;
        const auto byte = static_cast<std::uint8_t>(bytes[at++]);
        if (i == 8) return (out << 8U) | byte;
        out = (out << 7U) | (byte & 0x7FU);
        if ((byte & 0x80U) == 0) return out;
    }
    return out;
}

std::int64_t signed_number(std::string_view bytes) {
    std::uint64_t out = big_endian(bytes);
    const auto bits = static_cast<unsigned>(bytes.size() * 8);
    if (bits < 64 && ((out >> (bits - 1)) & 1U) != 0) out |= ~std::uint64_t{0} << bits;
    return static_cast<std::int64_t>(out);
}

std::optional<std::vector<ScrapCell>> record(std::string_view bytes) {
    std::size_t at = 0;
    const auto header = varint(bytes, at);
    if (!header || *header > bytes.size()) return std::nullopt;
    std::vector<ScrapCell> out;
    std::size_t data = *header;
    while (at < *header) {
        const auto type = varint(bytes, at);
        if (!type || at > *header) return std::nullopt;
        constexpr std::array<std::size_t, 7> whole{0, 1, 2, 3, 4, 6, 8};
        std::size_t size = 0;
        if (*type < whole.size())
            size = whole.at(*type);
        else if (*type == 7)
            size = 8;
        else if (*type == 10 || *type == 11)
            return std::nullopt;
        else if (*type >= 12)
            size = static_cast<std::size_t>((*type - 12) / 2);
        if (size > bytes.size() || data + size > bytes.size()) return std::nullopt;
        const std::string_view cell = bytes.substr(data, size);
        data += size;
        if (*type == 0)
            out.emplace_back();
        else if (*type < whole.size())
            out.emplace_back(signed_number(cell));
        else if (*type == 7)
            out.emplace_back(std::bit_cast<double>(big_endian(cell)));
        else if (*type == 8 || *type == 9)
            out.emplace_back(static_cast<std::int64_t>(*type - 8));
        else
            out.emplace_back(std::string(cell));
    }
    return data == bytes.size() ? std::optional(std::move(out)) : std::nullopt;
}

std::string bytes_of(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// The check value of the log over pairs of 32-bit words.
struct LogSum {
    std::uint32_t first = 0;
    std::uint32_t second = 0;

    void take(std::string_view bytes, bool big) {
        const auto word = [&](std::size_t at) {
            auto out = static_cast<std::uint32_t>(big_endian(bytes.substr(at, 4)));
            return big ? out : __builtin_bswap32(out);
        };
        for (std::size_t at = 0; at + 8 <= bytes.size(); at += 8) {
            first += word(at) + second;
            second += word(at + 4) + first;
        }
    }
};

}  // namespace

Pages::Pages(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    bytes_.assign(std::istreambuf_iterator<char>(in), {});
    if (!in || bytes_.size() < least_page)
        throw base::StoreError({"cannot be read, or is too short for a stash",
                                {.file = base::shown_inert(file.string()), .line = 0, .column = 0},
                                "a stash file that may be read",
                                "Name another file, or bring back a copy you kept."});
    const std::size_t written = number_at(bytes_, 16, 2);
    size_ = written == 1 ? largest_page : written;
    if (!bytes_.starts_with("SQLite format 3") || size_ < least_page || size_ > largest_page ||
        !std::has_single_bit(size_))
        size_ = likely_size();
    const std::size_t kept = static_cast<std::uint8_t>(bytes_[20]);
    usable_ = size_ - (kept <= 32 ? kept : 0);
    read_log(file.string() + "-wal");
    // A cut file had as many pages as its header says.
    constexpr std::size_t most_pages = std::size_t{1} << 24U;
    const std::size_t stated = number_at(bytes_, 28, 4);
    count_ = std::max((bytes_.size() + size_ - 1) / size_, stated < most_pages ? stated : 0);
    if (!in_log_.empty()) count_ = std::max(count_, in_log_.rbegin()->first);
}

/// Where the header is gone: the smallest size at whose odd multiples pages begin. Those of half
/// the size lie inside pages, where hardly a byte looks like a page's beginning.
std::size_t Pages::likely_size() const {
    for (std::size_t size = least_page; size <= largest_page; size *= 2) {
        std::size_t seen = 0;
        std::size_t fit = 0;
        for (std::size_t at = size; at + leaf_header <= bytes_.size(); at += 2 * size) {
            ++seen;
            const auto kind = static_cast<std::uint8_t>(bytes_[at]);
            const std::size_t cells = number_at(bytes_, at + 3, 2);
            const std::size_t begin = number_at(bytes_, at + 5, 2);
            if ((kind == 2 || kind == 5 || kind == 10 || kind == table_leaf) && begin > cells * 2 &&
                begin <= size)
                ++fit;
        }
        if (4 * fit > seen) return size;
    }
    return 4096;  // SQLite's own choice
}

/// Frames up to the last that ends a transaction, as long as their check values hold.
void Pages::read_log(const std::filesystem::path& file) {
    constexpr std::size_t log_header = 32;
    constexpr std::size_t frame_header = 24;
    log_ = bytes_of(file);
    if (log_.size() < log_header) return;
    const std::string_view log = log_;
    const auto magic = number_at(log, 0, 4);
    if ((magic & ~std::uint64_t{1}) != 0x377F0682 || number_at(log, 8, 4) != size_) return;
    const bool big = (magic & 1U) != 0;
    const std::string_view salt = log.substr(16, 8);
    LogSum sum;
    sum.take(log.substr(0, 24), big);
    std::map<std::size_t, std::size_t> begun;
    for (std::size_t at = log_header; at + frame_header + size_ <= log.size();
         at += frame_header + size_) {
        const std::string_view frame = log.substr(at, frame_header);
        if (frame.substr(8, 8) != salt) break;
        sum.take(frame.substr(0, 8), big);
        sum.take(log.substr(at + frame_header, size_), big);
        if (sum.first != big_endian(frame.substr(16, 4)) ||
            sum.second != big_endian(frame.substr(20, 4)))
            break;
        begun[big_endian(frame.substr(0, 4))] = at + frame_header;
        if (big_endian(frame.substr(4, 4)) == 0) continue;
        for (const auto& [page, place] : begun) in_log_[page] = place;
        begun.clear();
    }
}

std::string_view Pages::page(std::size_t number) const {
    if (const auto found = in_log_.find(number); found != in_log_.end())
        return std::string_view(log_).substr(found->second, size_);
    const std::size_t at = (number - 1) * size_;
    if (number == 0 || at >= bytes_.size()) return {};
    return std::string_view(bytes_).substr(at, size_);
}

/// Of a cell, with what of it lies on overflow pages; short when those are gone.
std::string Pages::payload(std::string_view page, std::size_t at, std::size_t size) const {
    std::size_t local = size;
    if (const std::size_t most = usable_ - 35; size > most) {
        const std::size_t least = (usable_ - 12) * 32 / 255 - 23;
        local = least + (size - least) % (usable_ - 4);
        if (local > most) local = least;
    }
    if (at + local > page.size()) return {};
    std::string out(page.substr(at, local));
    std::size_t next = local < size ? number_at(page, at + local, 4) : 0;
    while (out.size() < size && next != 0) {
        const std::string_view more = this->page(next);
        if (more.size() < usable_) return {};
        const std::size_t before = out.size();
        out += more.substr(4, std::min(size - before, usable_ - 4));
        next = number_at(more, 0, 4);
    }
    return out;
}

std::vector<ScrapRow> Pages::rows(std::size_t number) const {
    const std::string_view whole = page(number);
    const std::size_t begin = number == 1 ? header_size : 0;
    std::vector<ScrapRow> out;
    if (whole.size() < begin + leaf_header || static_cast<std::uint8_t>(whole[begin]) != table_leaf)
        return out;
    const std::size_t cells = number_at(whole, begin + 3, 2);
    for (std::size_t i = 0; i < cells; ++i) {
        const std::size_t pointer = begin + leaf_header + 2 * i;
        std::size_t at = number_at(whole, pointer, 2);
        if (at < pointer + 2 || at >= whole.size()) continue;
        const auto size = varint(whole, at);
        const auto key = varint(whole, at);
        if (!size || !key || *size > longest_payload) continue;
        const std::string bytes = payload(whole, at, static_cast<std::size_t>(*size));
        if (bytes.size() != *size) continue;
        if (auto cells_of_row = record(bytes))
            out.push_back({static_cast<std::int64_t>(*key), std::move(*cells_of_row)});
    }
    return out;
}

}  // namespace skeinfall::store
