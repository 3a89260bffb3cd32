// What the page asks of the engine: one request as JSON in, one answer as JSON out.
#include <exception>
#include <map>

#include "../io/job_words.hpp"
#include "binding_requests.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/report/safety_note.hpp"

namespace sunstrain::page {

std::string about(const Json&, Session& session) {
  const Reference& reference = *session.questions.reference;
  return Json{{"version", SUNSTRAIN_VERSION}, {"tables", reference.version}, {"safety_note", safety_note(reference)}}
      .dump();
}

}  // namespace sunstrain::page

namespace {

using namespace sunstrain;
using namespace sunstrain::page;

using Request = std::string (*)(const Json& request, Session& session);
const std::map<std::string, Request> requests{
    {"check", check}, {"questions", questions_for}, {"about", about}, {"practice", practice}, {"year", year},
    {"rank", rank},   {"type", type},               {"visit", visit}, {"read", read},         {"write", write}};

std::string answer_to(const Json& request, Session& session) {
  const std::string want = request.value("want", "check");
  const auto found = requests.find(want);
  if (found == requests.end())
    throw BadInput("want: the page asks for nothing of that name: " + sunstrain::quoted(want));
  session.cache.shed();
  return found->second(request, session);
}

// One line, and nothing in it but what a person can read.
std::string refusal(const char* kind, const char* what) { return Json{{kind, shown(what, std::string::npos)}}.dump(); }

}  // namespace

// request: {want?: one of the above, "check" when left out, and what binding_requests.hpp says}. Returns what it says,
// {refused: one line} for bad input, or {fault: one line}. The text stands until the next call.
extern "C" const char* sunstrain_answer(const char* request) {
  static Session session{builtin_questions(), {}};
  static std::string text;
  try {
    text = answer_to(Json::parse(request), session);
  } catch (const BadInput& error) {
    text = refusal("refused", error.what());
  } catch (const std::exception& error) {
    text = refusal("fault", error.what());
  }
  return text.c_str();
}
