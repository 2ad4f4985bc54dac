#include "collector/site.h"

#include <doctest/doctest.h>
#include <sys/stat.h>

#include "collector/route.h"
#include "support.h"

namespace trowelbell::collector {
namespace {

using testing::TempFolder;

struct Page {
  Page() {
    folder.write("web/index.html", "<p>page</p>");
    folder.write("web/coordinator.html", "<p>office</p>");
    folder.write("web/app.js", "plain script");
    folder.write("web/app.js.br", "br script");
    folder.write("web/app.js.gz", "gz script");
    folder.write("web/app.0123abcd.wasm", "wasm");
    folder.write("web/app-wide-screen.svg", "<svg/>");
    folder.write("web/content/lang/es.json", "{}");
    folder.write("web/lonely.gz", "an archive");
    folder.write("web/.hidden", "hidden");
    folder.write("web/.git/config", "hidden");
    folder.write("web/empty.txt", "");
    folder.write("secret.txt", "secret");
    std::filesystem::create_symlink(folder.path() / "secret.txt", folder.path() / "web/link.txt");
    std::filesystem::create_directory_symlink(folder.path(), folder.path() / "web/up");
    site = Site::load(folder.path() / "web");
  }
  Response ask(const std::string& path, const std::string& accept = "",
               const std::string& none_match = "") const {
    Request request;
    request.accept_encoding = accept;
    request.if_none_match = none_match;
    return site.answer(path, request);
  }
  TempFolder folder;
  Site site;
};

}  // namespace

TEST_CASE("files are found by their names, pages also without the ending") {
  const Page page;
  CHECK(page.ask("/").content() == "<p>page</p>");
  CHECK(page.ask("/index.html").content() == "<p>page</p>");
  CHECK(page.ask("/coordinator").content() == "<p>office</p>");
  CHECK(page.ask("/content/lang/es.json").content() == "{}");
  CHECK(page.ask("/lonely.gz").content() == "an archive");
  CHECK(page.ask("/empty.txt").status == 200);
  CHECK(page.ask("/empty.txt").content().empty());
  CHECK(page.ask("/nothing").status == 404);
  CHECK(page.ask("/content").status == 404);
  CHECK(page.ask("/content/").status == 404);
}

TEST_CASE("types and how long a browser may keep a file") {
  const Page page;
  struct Row {
    std::string path;
    std::string type;
    std::string cache;
  };
  const Row rows[] = {
      {"/", "text/html; charset=utf-8", "no-cache"},
      {"/app.js", "text/javascript; charset=utf-8", "no-cache"},
      {"/app.0123abcd.wasm", "application/wasm", "public, max-age=31536000, immutable"},
      {"/app-wide-screen.svg", "image/svg+xml", "no-cache"},
      {"/content/lang/es.json", "application/json", "no-cache"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.path);
    const Response response = page.ask(row.path);
    CHECK(response.field("Content-Type") == row.type);
    CHECK(response.field("Cache-Control") == row.cache);
  }
}

TEST_CASE("compressed forms go to those who take them, each with its own tag") {
  const Page page;
  const Response br = page.ask("/app.js", "gzip, br");
  const Response gz = page.ask("/app.js", "gzip");
  const Response plain = page.ask("/app.js");
  CHECK(br.content() == "br script");
  CHECK(br.field("Content-Encoding") == "br");
  CHECK(gz.content() == "gz script");
  CHECK(gz.field("Content-Encoding") == "gzip");
  CHECK(plain.content() == "plain script");
  CHECK(plain.field("Content-Encoding").empty());
  // RFC 9110, 8.8.3: representations that differ have different strong tags.
  CHECK(br.field("ETag") != gz.field("ETag"));
  CHECK(gz.field("ETag") != plain.field("ETag"));
  for (const Response& response : {br, gz, plain}) {
    CHECK(response.field("Vary") == "Accept-Encoding");
    CHECK(response.field("Content-Type") == "text/javascript; charset=utf-8");
  }
  CHECK(page.ask("/").field("Vary").empty());
}

TEST_CASE("304 carries what 200 would have said of caching, and no body") {
  // RFC 9110, 15.4.5: Cache-Control, ETag and Vary must be in the 304.
  const Page page;
  const std::string tag(page.ask("/app.js", "br").field("ETag"));
  const Response unchanged = page.ask("/app.js", "br", tag);
  CHECK(unchanged.status == 304);
  CHECK(unchanged.content().empty());
  CHECK(unchanged.field("ETag") == tag);
  CHECK(unchanged.field("Cache-Control") == "no-cache");
  CHECK(unchanged.field("Vary") == "Accept-Encoding");
  CHECK(page.ask("/app.js", "gzip", tag).status == 200);
}

TEST_CASE("nothing outside the folder, hidden or linked can be reached") {
  const Page page;
  const std::string targets[] = {
      "/../secret.txt",
      "/..%2fsecret.txt",
      "/%2e%2e/secret.txt",
      "/%2e%2e%2fsecret.txt",
      "/content/../../secret.txt",
      "/./../secret.txt",
      "//secret.txt",
      "/..\\secret.txt",
      "/..%5csecret.txt",
      "/%252e%252e/secret.txt",
      "/link.txt",
      "/up/secret.txt",
      "/.hidden",
      "/.git/config",
      "/index.html/",
      "/etc/passwd",
      "//etc/passwd",
      "/file:///etc/passwd",
      "/content/./lang/es.json",
      "/%c0%ae%c0%ae/secret.txt",
  };
  for (const std::string& target : targets) {
    CAPTURE(target);
    const Route route = find_route(target);
    CHECK(page.ask(route.path).status == 404);
  }
}

TEST_CASE("a folder that is missing or too large is told") {
  const TempFolder folder;
  CHECK_THROWS_AS(Site::load(folder.path() / "none"), SiteError);
  const auto file = folder.write("web/big.bin", "x");
  std::filesystem::resize_file(file, 64 * 1024 * 1024 + 1);
  CHECK_THROWS_AS(Site::load(folder.path() / "web"), SiteError);
}

}  // namespace trowelbell::collector
