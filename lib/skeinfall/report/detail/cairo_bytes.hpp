#pragma once
/// \file
/// Where Cairo writes the bytes of a document.

#include <string>

#include <cairo.h>

namespace skeinfall::report {

/// To a std::string, as a cairo_write_func_t.
inline cairo_status_t append_bytes(void* bytes, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(bytes)->append(data, data + length);
    return CAIRO_STATUS_SUCCESS;
}

}  // namespace skeinfall::report
