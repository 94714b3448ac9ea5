#include "skeinfall/report/detail/pdf_aids.hpp"

#include <cstddef>
#include <memory>
#include <set>

// Its own smart pointer is the standard one now.
#define POINTERHOLDER_TRANSITION 4  // NOLINT(cppcoreguidelines-macro-usage)
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFWriter.hh>

namespace skeinfall::report {
namespace {

/// Every element of the structure in reading order.
template <class Visit>
void walk(QPDFObjectHandle element, const Visit& visit, std::set<QPDFObjGen>& seen) {
    if (element.isArray()) {
        for (QPDFObjectHandle one : element.getArrayAsVector()) walk(one, visit, seen);
        return;
    }
    if (!element.isDictionary()) return;
    if (element.isIndirect() && !seen.insert(element.getObjGen()).second) return;
    visit(element);
    walk(element.getKey("/K"), visit, seen);
}

}  // namespace

std::string with_reading_aids(const std::string& pdf, const std::string& language,
                              const std::vector<std::string>& figures) {
    QPDF document;
    document.processMemoryFile("page", pdf.data(), pdf.size());
    QPDFObjectHandle root = document.getRoot();
    root.replaceKey("/Lang", QPDFObjectHandle::newUnicodeString(language));
    QPDFObjectHandle shown = QPDFObjectHandle::newDictionary();
    shown.replaceKey("/DisplayDocTitle", QPDFObjectHandle::newBool(true));
    root.replaceKey("/ViewerPreferences", shown);
    std::size_t figure = 0;
    std::set<QPDFObjGen> seen;
    walk(
        root.getKey("/StructTreeRoot"),
        [&](QPDFObjectHandle& element) {
            QPDFObjectHandle kind = element.getKey("/S");
            if (!kind.isNameAndEquals("/Figure") || figure >= figures.size()) return;
            element.replaceKey("/Alt", QPDFObjectHandle::newUnicodeString(figures[figure]));
            ++figure;
        },
        seen);
    QPDFWriter writer(document);
    writer.setOutputMemory();
    writer.setDeterministicID(true);
    writer.write();
    const std::shared_ptr<Buffer> out = writer.getBufferSharedPointer();
    return {reinterpret_cast<const char*>(out->getBuffer()), out->getSize()};
}

}  // namespace skeinfall::report
