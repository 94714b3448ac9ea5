#pragma once
/// \file
/// Internal to the store: CRC-32C (Castagnoli; RFC 3720, appendix B.4), eight bytes at a time. It
/// is worked out over every row that is read.

#include <array>
#include <cstddef>
#include <cstdint>

namespace skeinfall::store {

class Crc32c {
  public:
    void take(const void* data, std::size_t size) {
        const auto* at = static_cast<const unsigned char*>(data);
        for (; size >= 8; size -= 8, at += 8) {
            const std::uint32_t low = crc_ ^ word(at);
            const std::uint32_t high = word(at + 4);
            crc_ = tables[7][low & 0xffU] ^ tables[6][low >> 8U & 0xffU] ^
                   tables[5][low >> 16U & 0xffU] ^ tables[4][low >> 24U] ^ tables[3][high & 0xffU] ^
                   tables[2][high >> 8U & 0xffU] ^ tables[1][high >> 16U & 0xffU] ^
                   tables[0][high >> 24U];
        }
        for (; size > 0; --size, ++at) crc_ = tables[0][(crc_ ^ *at) & 0xffU] ^ crc_ >> 8U;
    }
    [[nodiscard]] std::uint32_t value() const { return ~crc_; }

  private:
    /// The lowest byte first, on every machine.
    static std::uint32_t word(const unsigned char* at) {
        return std::uint32_t{at[0]} | std::uint32_t{at[1]} << 8U | std::uint32_t{at[2]} << 16U |
               std::uint32_t{at[3]} << 24U;
    }

    using Tables = std::array<std::array<std::uint32_t, 256>, 8>;
    /// tables[n][b]: what byte b does to the remainder with n bytes behind it.
    static constexpr Tables made_tables() {
        Tables out{};
        for (std::uint32_t byte = 0; byte < 256; ++byte) {
            std::uint32_t crc = byte;
            for (int bit = 0; bit < 8; ++bit)
                crc = (crc & 1U) != 0 ? crc >> 1U ^ 0x82F63B78U : crc >> 1U;
            out[0][byte] = crc;
        }
        for (std::size_t n = 1; n < out.size(); ++n)
            for (std::size_t byte = 0; byte < 256; ++byte)
                out[n][byte] = out[0][out[n - 1][byte] & 0xffU] ^ out[n - 1][byte] >> 8U;
        return out;
    }
    static const Tables tables;

    std::uint32_t crc_ = ~std::uint32_t{0};
};

inline constexpr Crc32c::Tables Crc32c::tables = Crc32c::made_tables();

}  // namespace skeinfall::store
