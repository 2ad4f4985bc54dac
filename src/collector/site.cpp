#include "site.h"

#include <algorithm>
#include <fstream>
#include <iterator>

#include "answers.h"
#include "digest.h"
#include "negotiation.h"

namespace trowelbell::collector {
namespace {

namespace fs = std::filesystem;
constexpr std::uintmax_t kMostBytes = 64 * 1024 * 1024;

constexpr std::pair<std::string_view, std::string_view> kTypes[] = {
    {".css", "text/css; charset=utf-8"},
    {".html", "text/html; charset=utf-8"},
    {".ico", "image/x-icon"},
    {".js", "text/javascript; charset=utf-8"},
    {".json", "application/json"},
    {".mjs", "text/javascript; charset=utf-8"},
    {".png", "image/png"},
    {".svg", "image/svg+xml"},
    {".ttf", "font/ttf"},
    {".txt", "text/plain; charset=utf-8"},
    {".wasm", "application/wasm"},
    {".webmanifest", "application/manifest+json"},
    {".woff2", "font/woff2"},
};

std::string type_of(const fs::path& file) {
  const std::string ending = file.extension().string();
  for (const auto& [known, type] : kTypes)
    if (known == ending) return std::string(type);
  return "application/octet-stream";
}

// "app.3f2a91bc.wasm", "app-3f2a91bc.js": the name changes with the content.
bool has_revision(const fs::path& file) {
  const std::string stem = file.stem().string();
  const std::size_t mark = stem.find_last_of(".-");
  if (mark == std::string::npos || stem.size() - mark - 1 < 8) return false;
  return stem.find_first_not_of("0123456789abcdef", mark + 1) == std::string::npos;
}

std::string read_file(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::string bytes((std::istreambuf_iterator<char>(stream)), std::istreambuf_iterator<char>());
  if (!stream.is_open() || stream.bad())
    throw SiteError("Cannot read " + file.string() + ". Check who may read it.");
  return bytes;
}

}  // namespace

Site Site::load(const fs::path& folder) {
  std::error_code error;
  if (!fs::is_directory(folder, error))
    throw SiteError("There is no web folder at " + folder.string() +
                    ". Build the page first, or name its folder with --web.");
  Site site;
  std::map<std::string, Form, std::less<>> forms;
  std::uintmax_t total = 0;
  auto walk = fs::recursive_directory_iterator(folder, error);
  for (; !error && walk != fs::recursive_directory_iterator(); walk.increment(error)) {
    const fs::directory_entry& entry = *walk;
    const bool hidden = entry.path().filename().string().starts_with('.');
    if (hidden && entry.is_directory()) walk.disable_recursion_pending();
    if (hidden || entry.is_symlink() || !entry.is_regular_file()) continue;
    total += entry.file_size();
    if (total > kMostBytes)
      throw SiteError(folder.string() +
                      " holds more than 64 MB. Name the folder that holds the page alone.");
    Form form{read_file(entry.path()), ""};
    form.etag = '"' + hex(sha256(form.bytes)).substr(0, 32) + '"';
    forms["/" + entry.path().lexically_relative(folder).generic_string()] = std::move(form);
  }
  if (error) throw SiteError("Cannot read " + folder.string() + ": " + error.message() + ".");

  for (auto& [path, form] : forms) {
    const fs::path name = fs::path(path).filename();
    const bool compressed = name.extension() == ".br" || name.extension() == ".gz";
    const std::string base = compressed ? path.substr(0, path.size() - 3) : "";
    if (compressed && forms.contains(base)) continue;
    File file{type_of(name),
              has_revision(name) ? "public, max-age=31536000, immutable" : "no-cache",
              std::move(form),
              {},
              {}};
    if (const auto br = forms.find(path + ".br"); br != forms.end())
      file.br = std::move(br->second);
    if (const auto gz = forms.find(path + ".gz"); gz != forms.end())
      file.gz = std::move(gz->second);
    site.files_.emplace(path, std::move(file));
  }
  return site;
}

const Site::File* Site::find(std::string_view path) const {
  auto file = files_.find(path == "/" ? "/index.html" : path);
  if (file == files_.end()) file = files_.find(std::string(path) + ".html");
  return file == files_.end() ? nullptr : &file->second;
}

Response Site::answer(std::string_view path, const Request& request) const {
  const File* file = find(path);
  if (file == nullptr) return not_found_answer();
  const Form* form = &file->plain;
  std::string_view coding;
  if (!file->br.etag.empty() && accepts_coding(request.accept_encoding, "br")) {
    form = &file->br;
    coding = "br";
  } else if (!file->gz.etag.empty() && accepts_coding(request.accept_encoding, "gzip")) {
    form = &file->gz;
    coding = "gzip";
  }
  Response response;
  response.fields = {{"ETag", form->etag}, {"Cache-Control", file->cache}};
  if (!file->br.etag.empty() || !file->gz.etag.empty())
    response.fields.push_back({"Vary", "Accept-Encoding"});
  if (names_etag(request.if_none_match, form->etag)) {
    response.status = 304;
    return response;
  }
  response.fields.push_back({"Content-Type", file->type});
  if (!coding.empty()) response.fields.push_back({"Content-Encoding", std::string(coding)});
  response.file = form->bytes;
  return response;
}

}  // namespace trowelbell::collector
