// The check value of rows, beside published ones and Boost's.

#include "skeinfall/store/crc32c.hpp"

#include <string>

#include <boost/crc.hpp>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace {

using skeinfall::store::Crc32c;

std::uint32_t crc_of(const std::string& bytes) {
    Crc32c crc;
    crc.take(bytes.data(), bytes.size());
    return crc.value();
}

// RFC 3720, appendix B.4, as numbers; and the usual check "123456789".
TEST(Crc32cOfRows, IsThePublishedOne) {
    EXPECT_EQ(crc_of(std::string(32, '\0')), 0x8a9136aaU);
    EXPECT_EQ(crc_of(std::string(32, '\xff')), 0x62a8ab43U);
    std::string rising;
    for (char byte = 0; byte < 32; ++byte) rising += byte;
    EXPECT_EQ(crc_of(rising), 0x46dd794eU);
    EXPECT_EQ(crc_of("123456789"), 0xe3069283U);
}

// However the bytes come.
RC_GTEST_PROP(Crc32cOfRows, IsThatOfBoost, (const std::string& one, const std::string& other)) {
    boost::crc_optimal<32, 0x1EDC6F41, 0xFFFFFFFF, 0xFFFFFFFF, true, true> expected;
    expected.process_bytes(one.data(), one.size());
    expected.process_bytes(other.data(), other.size());
    Crc32c crc;
    crc.take(one.data(), one.size());
    crc.take(other.data(), other.size());
    RC_ASSERT(crc.value() == expected.checksum());
}

}  // namespace
