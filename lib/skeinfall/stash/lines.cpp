#include "skeinfall/stash/lines.hpp"

#include <algorithm>
#include <cstring>
#include <utility>

namespace skeinfall::stash {
namespace {

constexpr std::size_t block_size = std::size_t{64} * 1024;

class Writer {
  public:
    explicit Writer(std::string& to) : to_(to) {}

    template <class Number>
    void raw(Number number) {
        const std::size_t at = to_.size();
        to_.resize(at + sizeof number);
        std::memcpy(to_.data() + at, &number, sizeof number);
    }
    /// Seven bits a byte, the lowest first.
    void count(std::uint64_t number) {
        for (; number >= 0x80U; number >>= 7U) to_ += static_cast<char>(number | 0x80U);
        to_ += static_cast<char>(number);
    }
    void text(std::string_view text) {
        count(text.size());
        to_ += text;
    }
    template <class T>
    void known(const std::optional<T>& value) {
        to_ += value ? '\1' : '\0';
        if (value) (*this)(*value);
    }

    void operator()(const std::string& value) { text(value); }
    void operator()(Begun value) { to_ += value ? '\1' : '\0'; }
    void operator()(Count value) { raw(value); }
    void operator()(const yarn::WeightClass& value) { raw(value.number); }
    void operator()(const base::Day& value) {
        raw(static_cast<int>(value.year()));
        count(static_cast<unsigned>(value.month()));
        count(static_cast<unsigned>(value.day()));
    }
    template <class Q>
    void operator()(const units::Printed<Q>& value) {
        text(value.text);
        raw(value.value.value());
    }
    void operator()(const Amount& value) {
        count(value.index());
        std::visit([this](const auto& printed) { (*this)(printed); }, value);
    }
    void operator()(const yarn::FibreContent& value) {
        count(value.shares.size());
        for (const yarn::FibreShare& share : value.shares) {
            text(share.fibre);
            raw(share.share.value());
        }
    }
    template <class T>
    void operator()(const std::optional<T>& value) {
        known(value);
    }

  private:
    std::string& to_;
};

class Reader {
  public:
    explicit Reader(std::string_view from) : from_(from) {}

    template <class Number>
    Number raw() {
        Number number{};
        std::memcpy(&number, from_.data(), sizeof number);
        from_.remove_prefix(sizeof number);
        return number;
    }
    std::uint64_t count() {
        std::uint64_t number = 0;
        for (unsigned shift = 0;; shift += 7U) {
            const auto byte = raw<unsigned char>();
            number |= (std::uint64_t{byte} & 0x7fU) << shift;
            if (byte < 0x80U) return number;
        }
    }
    std::string_view text() {
        const auto size = static_cast<std::size_t>(count());
        const std::string_view out = from_.substr(0, size);
        from_.remove_prefix(size);
        return out;
    }

    void operator()(std::string& value) { value = text(); }
    void operator()(Begun& value) { value = raw<char>() != '\0'; }
    void operator()(Count& value) { value = raw<Count>(); }
    void operator()(yarn::WeightClass& value) { value.number = raw<decltype(value.number)>(); }
    void operator()(base::Day& value) {
        const std::chrono::year year(raw<int>());
        const std::chrono::month month(static_cast<unsigned>(count()));
        value = {year, month, std::chrono::day(static_cast<unsigned>(count()))};
    }
    template <class Q>
    void operator()(units::Printed<Q>& value) {
        value.text = text();
        value.value = Q::from_value(raw<double>());
    }
    void operator()(Amount& value) {
        if (count() == 0)
            value = units::Printed<units::Length>{};
        else
            value = units::Printed<units::Mass>{};
        std::visit([this](auto& printed) { (*this)(printed); }, value);
    }
    void operator()(yarn::FibreContent& value) {
        value.shares.resize(static_cast<std::size_t>(count()));
        for (yarn::FibreShare& share : value.shares) {
            share.fibre = text();
            share.share = units::Ratio::from_value(raw<double>());
        }
    }
    template <class T>
    void operator()(std::optional<T>& value) {
        if (raw<char>() == '\0')
            value.reset();
        else
            (*this)(value.emplace());
    }

  private:
    std::string_view from_;
};

void write_fields(const Skein& skein, Owner owner, Writer& writer) {
    for (const Field& field : fields())
        if (field.owner == owner)
            std::visit([&](const auto& member) { writer(member.seen(skein)); }, field.held);
}

void read_fields(Skein& skein, Owner owner, Reader& reader) {
    for (const Field& field : fields())
        if (field.owner == owner)
            std::visit([&](const auto& member) { reader(member.of(skein)); }, field.held);
}

}  // namespace

std::string packed(const Skein& skein, Owner owner) {
    std::string out;
    Writer writer(out);
    write_fields(skein, owner, writer);
    return out;
}

Lines::Lines(std::initializer_list<Line> lines) {
    for (const Line& line : lines) push_back(line);
}

Lines::Lines(const std::vector<Movement>& movements) {
    for (const Movement& movement : movements) push_back({movement, {}, {}});
}

void Lines::push_back(const Line& line) {
    std::string bytes;
    Writer writer(bytes);
    const Movement& movement = line.movement;
    writer.raw(static_cast<unsigned char>(movement.kind));
    writer(movement.skein);
    writer(movement.day);
    writer(movement.amount);
    writer(movement.scale);
    writer(movement.tare);
    for (const std::string* text :
         {&movement.other, &movement.purpose, &movement.role, &movement.note, &line.name})
        writer(*text);
    auto file = std::find(files_.begin(), files_.end(), line.place.file);
    if (file == files_.end()) file = files_.insert(file, line.place.file);
    writer.count(static_cast<std::uint64_t>(file - files_.begin()));
    writer.count(line.place.line);
    writer.count(line.place.column);
    writer(movement.described.has_value());
    if (movement.described)
        for (const Owner owner : {Owner::yarn, Owner::skein})
            write_fields(*movement.described, owner, writer);
    if (blocks_.empty() || blocks_.back().capacity() - blocks_.back().size() < bytes.size()) {
        blocks_.emplace_back();
        blocks_.back().reserve(std::max(block_size, bytes.size()));
    }
    starts_.push_back({static_cast<std::uint32_t>(blocks_.size() - 1),
                       static_cast<std::uint32_t>(blocks_.back().size())});
    blocks_.back() += bytes;
}

std::string_view Lines::bytes_of(std::size_t number) const {
    const Start start = starts_[number];
    return std::string_view(blocks_[start.block]).substr(start.at);
}

MovementKind Lines::kind_of(std::size_t number) const {
    return static_cast<MovementKind>(Reader(bytes_of(number)).raw<unsigned char>());
}

std::string_view Lines::skein_of(std::size_t number) const {
    Reader reader(bytes_of(number).substr(1));
    return reader.text();
}

Line Lines::operator[](std::size_t number) const {
    Reader reader(bytes_of(number));
    Line line;
    Movement& movement = line.movement;
    movement.kind = static_cast<MovementKind>(reader.raw<unsigned char>());
    reader(movement.skein);
    reader(movement.day);
    if (day_) movement.day = day_;
    reader(movement.amount);
    reader(movement.scale);
    reader(movement.tare);
    for (std::string* text :
         {&movement.other, &movement.purpose, &movement.role, &movement.note, &line.name})
        reader(*text);
    line.place.file = files_[static_cast<std::size_t>(reader.count())];
    line.place.line = static_cast<std::size_t>(reader.count());
    line.place.column = static_cast<std::size_t>(reader.count());
    bool described = false;
    reader(described);
    if (described) {
        movement.described.emplace();
        for (const Owner owner : {Owner::yarn, Owner::skein})
            read_fields(*movement.described, owner, reader);
    }
    return line;
}

}  // namespace skeinfall::stash
