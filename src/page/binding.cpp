// What the page asks of the engine: one request as JSON in, one answer as JSON out.
#include <exception>
#include <map>

#include "../io/job_words.hpp"
#include "binding_requests.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/report/safety_note.hpp"

namespace sunstrain::page {

std::string about(const Json&, Session& session) {
  const Reference& reference = session.reference;
  Json all = Json::object();
  for (const std::string& code : languages()) {
    const Language language = load_language(code);
    if (!language.of.empty()) all[code] = {{"name", told(language, "English")}, {"texts", language.of}};
  }
  return Json{{"version", SUNSTRAIN_VERSION},
              {"tables", reference.version},
              {"safety_note", safety_note(reference)},
              {"languages", std::move(all)}}
      .dump();
}

}  // namespace sunstrain::page

namespace {

using namespace sunstrain;
using namespace sunstrain::page;

using Request = std::string (*)(const Json& request, Session& session);
const std::map<std::string, Request> requests{{"check", check}, {"questions", questions_for},
                                              {"about", about}, {"practice", practice},
                                              {"year", year},   {"rank", rank},
                                              {"type", type},   {"visit", visit},
                                              {"read", read},   {"write", write}};

// What the page holds until it is closed.
struct Held {
  std::map<std::string, Reference> told;  // the tables, by language
  ChainCache cache;
};

const Reference& told_in(const std::string& language, Held& held) {
  auto found = held.told.find(language);
  if (found == held.told.end()) found = held.told.emplace(language, builtin_reference_in(language)).first;
  return found->second;
}

std::string answer_to(const Json& request, const Reference& reference, Held& held) {
  const std::string want = request.value("want", "check");
  const auto found = requests.find(want);
  if (found == requests.end())
    throw BadInput("want: the page asks for nothing of that name: {}", sunstrain::quoted(want));
  held.cache.shed();
  Session session{builtin_questions(), reference, held.cache};
  return found->second(request, session);
}

// One line, and nothing in it but what a person can read.
std::string refusal(const char* kind, const std::string& what) {
  return Json{{kind, shown(what, std::string::npos)}}.dump();
}

}  // namespace

// request: {want?: one of the above, "check" when left out, language?: of what is said, "en" when left out, and what
// binding_requests.hpp says}. Returns what it says, {refused: one line} for bad input, or {fault: one line}. The text
// stands until the next call.
extern "C" const char* sunstrain_answer(const char* request) {
  static Held held;
  static std::string text;
  const Language* language = nullptr;
  try {
    const Json asked = Json::parse(request);
    const Reference& reference = told_in(asked.value("language", "en"), held);
    language = &reference.language;
    text = answer_to(asked, reference, held);
  } catch (const BadInput& error) {
    text = refusal("refused", told(language == nullptr ? Language{} : *language, error));
  } catch (const std::exception& error) {
    text = refusal("fault", error.what());
  }
  return text.c_str();
}
