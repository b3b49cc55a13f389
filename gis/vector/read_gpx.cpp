// Expat reads the XML, in pieces of 64 KB; GpxBuilder gives it meaning. A file whose bytes are not
// in the encoding it names is read once more as Windows-1252, as the other text readers do. A
// single token (a comment, a tag) of more than 4 MB is refused: Expat starts it anew with each
// piece, which is quadratic.
#include "gis/vector/read_gpx.h"

#include "gis/gdal/gdal_session.h"
#include "gis/vector/file_scan.h"
#include "gis/vector/file_text.h"
#include "gis/vector/gpx_builder.h"

#include <algorithm>
#include <fstream>
#include <memory>
#include <string_view>

#include <expat.h>
#include <fmt/format.h>

namespace haylane {

namespace {

constexpr std::size_t kPiece = 64U << 10U;
constexpr std::size_t kLongestToken = 4U << 20U;

struct CloseParser {
    void operator()(XML_Parser parser) const { XML_ParserFree(parser); }
};
using ParserPtr = std::unique_ptr<std::remove_pointer_t<XML_Parser>, CloseParser>;

struct Session {
    ParserPtr parser;
    GpxBuilder builder;
    XmlAttributes attributes;

    void stop_on_error() const {
        if (builder.error()) XML_StopParser(parser.get(), XML_FALSE);
    }
};

void on_start(void* user, const XML_Char* name, const XML_Char** attributes) {
    auto& session = *static_cast<Session*>(user);
    session.attributes.clear();
    for (std::size_t i = 0; attributes[i] != nullptr; i += 2) {
        session.attributes.emplace_back(attributes[i], attributes[i + 1]);
    }
    session.builder.start(name, session.attributes, XML_GetCurrentLineNumber(session.parser.get()));
    session.stop_on_error();
}

void on_end(void* user, const XML_Char* name) {
    auto& session = *static_cast<Session*>(user);
    session.builder.end(name);
    session.stop_on_error();
}

void on_text(void* user, const XML_Char* text, int size) {
    static_cast<Session*>(user)->builder.text({text, static_cast<std::size_t>(size)});
}

void on_document_type(void* user, const XML_Char* root, const XML_Char* /*system*/,
                      const XML_Char* /*public_id*/, int /*has_internal_subset*/) {
    auto& session = *static_cast<Session*>(user);
    session.builder.document_type(root);
    session.stop_on_error();
}

// The one encoding that Expat does not know and receivers' programs write.
int on_encoding(void* /*data*/, const XML_Char* name, XML_Encoding* encoding) {
    const std::string low = lower_ascii(name);
    if (low != "windows-1252" && low != "cp1252") return XML_STATUS_ERROR;
    for (std::size_t i = 0; i < 256; ++i) {
        encoding->map[i] = static_cast<int>(from_windows_1252(static_cast<std::uint8_t>(i)));
    }
    encoding->data = nullptr;
    encoding->convert = nullptr;
    encoding->release = nullptr;
    return XML_STATUS_OK;
}

// How the XML ended.
struct Ending {
    XML_Error error = XML_ERROR_NONE;
    std::size_t line = 0;
    bool at_end = false;      // nothing wrong before the file's end, which came too early
    bool odd_letter = false;  // a byte above 127 stands where the error is
};

bool fits_pieces(const Session& session, std::size_t fed) {
    const auto at = XML_GetCurrentByteIndex(session.parser.get());
    return at < 0 || fed < kLongestToken + static_cast<std::size_t>(at);
}

Ending ending_of(const Session& session, std::ifstream& in, bool whole_fed) {
    XML_Parser parser = session.parser.get();
    Ending out;
    out.error = XML_GetErrorCode(parser);
    out.line = XML_GetCurrentLineNumber(parser);
    out.at_end =
        whole_fed &&
        (out.error == XML_ERROR_NO_ELEMENTS || out.error == XML_ERROR_UNCLOSED_TOKEN ||
         out.error == XML_ERROR_PARTIAL_CHAR || out.error == XML_ERROR_UNCLOSED_CDATA_SECTION);
    in.clear();
    in.seekg(XML_GetErrorByteIndex(parser));
    out.odd_letter = out.error == XML_ERROR_INVALID_TOKEN && (in.peek() & 0x80) != 0 &&
                     in.peek() != std::ifstream::traits_type::eof();
    return out;
}

Result<Ending> parse(Session& session, const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::vector<char> piece(kPiece);
    const std::string name = file.filename().string();
    std::size_t fed = 0;
    bool last = false;
    while (!last) {
        in.read(piece.data(), static_cast<std::streamsize>(piece.size()));
        const auto size = in.gcount();
        if (in.bad() || (fed == 0 && !in && !in.eof())) {
            return fail({"file_unreadable", fmt::format("{} cannot be read", name), file.string(),
                         "check that it is on a working disk and that you may read it"});
        }
        last = in.eof();
        const auto status =
            XML_Parse(session.parser.get(), piece.data(), static_cast<int>(size), last ? 1 : 0);
        if (session.builder.error()) return fail(*session.builder.error());
        if (status != XML_STATUS_OK) return ending_of(session, in, last);
        fed += static_cast<std::size_t>(size);
        if (!fits_pieces(session, fed)) {
            return fail({"not_gpx", fmt::format("{} holds a tag or comment without an end", name),
                         name, "export it again from the receiver or the map"});
        }
    }
    return Ending{};
}

std::unique_ptr<Session> make_session(const std::string& name, const GpxLimits& limits,
                                      const char* encoding) {
    auto session = std::make_unique<Session>(
        Session{ParserPtr(XML_ParserCreate(encoding)), GpxBuilder(name, limits), {}});
    XML_Parser parser = session->parser.get();
    XML_SetUserData(parser, session.get());
    XML_SetElementHandler(parser, on_start, on_end);
    XML_SetCharacterDataHandler(parser, on_text);
    XML_SetStartDoctypeDeclHandler(parser, on_document_type);
    XML_SetUnknownEncodingHandler(parser, on_encoding, nullptr);
    return session;
}

std::string head_of(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::string head(1024, '\0');
    in.read(head.data(), static_cast<std::streamsize>(head.size()));
    head.resize(static_cast<std::size_t>(in.gcount()));
    return head;
}

// A file that broke before the first point.
Error nothing_read(const std::filesystem::path& file, const Ending& ending, bool root_seen) {
    const std::string name = file.filename().string();
    const std::string where = fmt::format("{}, line {}", name, ending.line);
    const char* const again = "export it again from the receiver or the map";
    const std::string head = lower_ascii(head_of(file));
    if (head.find("<!doctype html") != std::string::npos ||
        head.find("<html") != std::string::npos) {
        return web_page(name);
    }
    const bool utf16 = head.starts_with("\xff\xfe") || head.starts_with("\xfe\xff");
    const std::string first = trimmed(head.substr(head.starts_with("\xef\xbb\xbf") ? 3 : 0));
    if (!root_seen && !utf16 && !first.starts_with('<')) {
        return {"not_gpx", fmt::format("{} is not a GPX file: its first bytes are not XML", name),
                name, again};
    }
    if (ending.at_end) {
        return {"not_gpx", fmt::format("{} is not a complete GPX file", where), where, again};
    }
    return {"not_gpx",
            fmt::format("{}: the file is not well-formed XML ({})", where,
                        XML_ErrorString(ending.error)),
            where, again};
}

void note_break(Session& session, const Ending& ending) {
    const std::string kept =
        fmt::format("the {} points before it were kept", session.builder.points());
    session.builder.tally().add("file_cut_short", ending.line,
                                ending.at_end ? fmt::format("the file breaks off here; {}", kept)
                                              : fmt::format("the file is damaged here ({}); {}",
                                                            XML_ErrorString(ending.error), kept),
                                "copy the file from the receiver again");
}

}  // namespace

Result<GpxFile> read_gpx(const std::filesystem::path& file, const GpxLimits& limits) {
    const Result<void> size = check_size(file, limits.most_bytes);
    if (!size) return fail(size.error());
    if (const auto wrong = wrong_content(file)) return fail(*wrong);
    const std::string name = file.filename().string();
    const std::string head = head_of(file);
    const bool utf16 = head.starts_with("\xFF\xFE") || head.starts_with("\xFE\xFF");
    auto session = make_session(name, limits, utf16 ? "UTF-16" : nullptr);
    Result<Ending> ending = parse(*session, file);
    if (ending && ending->odd_letter && session->builder.root_seen()) {
        session = make_session(name, limits, "windows-1252");
        session->builder.tally().add(
            "text_encoding", ending->line,
            "the letters are not in the encoding that the file names; they were taken as "
            "Windows-1252",
            "check names with accents, or export the file again");
        ending = parse(*session, file);
    }
    if (!ending) return fail(ending.error());
    if (ending->error != XML_ERROR_NONE) {
        if (head.find_first_not_of(" \t\r\n") == std::string::npos &&
            !session->builder.root_seen()) {
            return fail({"empty_file", fmt::format("{} is empty", name), name,
                         "export or copy the file again"});
        }
        if (session->builder.points() == 0) {
            return fail(nothing_read(file, *ending, session->builder.root_seen()));
        }
        note_break(*session, *ending);
    }
    return session->builder.finish();
}

}  // namespace haylane
