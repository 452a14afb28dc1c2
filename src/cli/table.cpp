#include "cli/table.h"

namespace placer::cli {
namespace {

OptionRow studio_file() {
  return {"FILE",
          "FILE",
          "the studio file; - reads standard input (default studio.yaml)",
          &Request::file,
          {}};
}
OptionRow json() { return {"--json", "", "the answer as JSON", &Request::json, {}}; }

/// Options that change a plan, for the commands that make one.
std::vector<OptionRow> plan_options() {
  return {
      {"--effort",
       "HOW",
       "how hard to look for a fuller load",
       &Request::effort,
       {"quick", "normal", "thorough"}},
      {"--air", "LENGTH", "air over the tallest piece, this time (\"12 mm\")", &Request::air, {}},
      {"--gap", "LENGTH", "room between pieces, this time", &Request::gap, {}},
      {"--first", "PIECE", "this piece must go before pieces that may wait", &Request::first, {}},
      {"--apart",
       "GLAZES",
       "two glazes that may not share a shelf (\"shino,clear\")",
       &Request::apart,
       {}},
      {"--broken",
       "PIECE",
       "one of these broke: the same plan without it, nothing else moves; again for each one",
       &Request::broken,
       {}},
      {"--keep",
       "LEVELS",
       "levels already set in the kiln: 1-2, or left:1-2; the rest is planned",
       &Request::keep,
       {}},
  };
}

std::vector<OptionRow> with(std::vector<OptionRow> first, std::vector<OptionRow> more) {
  first.insert(first.end(), more.begin(), more.end());
  return first;
}

CommandRow begin() {
  return {"begin",
          "write a small studio file that works, to change to your own",
          {"placer begin", "placer begin summer/studio.yaml"},
          {studio_file()}};
}
CommandRow check() {
  return {
      "check",
      "read the studio file and say what is wrong, all of it; change nothing",
      {"placer check", "placer check -v studio.yaml"},
      {studio_file(),
       json(),
       {"-v,--how-read", "", "show how each quantity was understood", &Request::how_read, {}},
       {"--strict", "", "end with 1 when there is something to look at", &Request::strict, {}}}};
}
CommandRow load() {
  return {"load",
          "plan which piece goes in which firing, on which shelf, where",
          {"placer load", "placer load --first \"Tall jug\"", "placer load --json > plan.json"},
          with({studio_file(), json()}, plan_options())};
}
CommandRow firing() {
  return {"firing",
          "the schedule: steps, clock times, energy, when to open",
          {"placer firing", "placer firing --diary > firing.ics"},
          with({studio_file(),
                json(),
                {"--diary", "", "the calendar of the firing (iCalendar)", &Request::diary, {}}},
               plan_options())};
}
CommandRow print() {
  return {
      "print",
      "write the sheets: loading maps, firing sheet, phone page, plan files",
      {"placer print", "placer print -o tuesday"},
      with({studio_file(),
            {"-o,--out", "DIR", "folder for the sheets (default sheets)", &Request::out, {}},
            {"--paper",
             "SIZE",
             "page size; both = prints unscaled on A4 and Letter",
             &Request::paper,
             {"both", "a4", "letter"}},
            {"--dry-run", "", "say what would be written, write nothing", &Request::dry_run, {}}},
           plan_options())};
}
CommandRow cone() {
  return {
      "cone",
      "when a cone bends, or which cone a temperature is",
      {"placer cone 6", "placer cone 10 --rate 60", "placer cone --temperature 1295 --rate 100"},
      {{"CONE", "CONE", "the cone, as printed on it: 6 and 06 are two cones", &Request::cone, {}},
       {"--rate", "RATE", "climb over the last 100 °C: 60, \"108 F/h\"", &Request::rate, {}},
       {"--temperature", "TEMP", "top temperature: 1295, \"2345 F\"", &Request::temperature, {}},
       {"--kind",
        "KIND",
        "kind of cone",
        &Request::kind,
        {"self-supporting", "self-supporting-iron-free", "large", "large-iron-free", "small"}},
       json()}};
}
CommandRow reached() {
  return {"reached",
          "read what the kiln did from a log and say which cone it was",
          {"placer reached tuesday.csv", "placer reached tuesday.csv --cone 10"},
          {{"LOG",
            "LOG",
            "times and temperatures, a CSV file; - reads standard input",
            &Request::log,
            {}},
           {"--cone", "CONE", "the cone aimed at", &Request::aim, {}},
           {"--fahrenheit", "", "the log is in °F and does not say so", &Request::fahrenheit, {}},
           {"--studio",
            "FILE",
            "the studio file, to set the plan beside what the kiln did",
            &Request::studio,
            {}},
           {"--firing",
            "NAME",
            "which of its firings this was (the file: studio.yaml, or --studio)",
            &Request::firing,
            {}},
           json()}};
}
CommandRow probe() {
  return {"probe",
          "what a zirconia probe's millivolts mean at a temperature, and back",
          {"placer probe 578 --temperature 1250", "placer probe --co 3 --temperature 1000"},
          {{"MV", "MV", "millivolts", &Request::millivolts, {}},
           {"--co",
            "PERCENT",
            "carbon monoxide in the dry flue gas: what the probe should read",
            &Request::carbon_monoxide,
            {}},
           {"--temperature", "TEMP", "at the probe: 1250, \"2282 F\"", &Request::temperature, {}},
           json()}};
}
CommandRow shelf() {
  return {"shelf",
          "how many pieces of a size go on a shelf of a size, no file needed",
          {"placer shelf \"round 533\" --piece 84 --handle 30",
           "placer shelf \"600 x 300\" --piece \"90 x 90\""},
          {{"SHELF",
            "SHELF",
            "round 533, half round 560, 600 x 300 or octagon 640",
            &Request::shelf_size,
            {}},
           {"--piece", "SIZE", "across, or width x depth", &Request::piece_size, {}},
           {"--handle", "REACH", "how far a handle reaches out", &Request::handle, {}},
           {"--gap", "LENGTH", "room between pieces (default 6 mm)", &Request::piece_gap, {}},
           json()}};
}
CommandRow why() {
  return {
      "why",
      "why a piece stands where it stands or was left out; what a message means",
      {"placer why Platter", "placer why snug"},
      {{"WHAT", "WHAT", "a piece's name, or the word at the end of a message", &Request::about, {}},
       {"--studio", "FILE", "the studio file (default studio.yaml)", &Request::file, {}}}};
}
CommandRow words() {
  return {
      "words",
      "the words that a place in the studio file may hold",
      {"placer words", "placer words piece"},
      {{"PLACE", "PLACE", "piece, kiln, shelf, ...; none lists the places", &Request::about, {}},
       json()}};
}
CommandRow tidy() {
  return {"tidy",
          "show spelling fixes and file upgrades; --write makes them, comments kept",
          {"placer tidy", "placer tidy --write"},
          {studio_file(),
           {"--write",
            "",
            "make the changes; the old file stays as FILE.before-tidy",
            &Request::write,
            {}}}};
}

}  // namespace

const std::vector<CommandRow>& commands() {
  static const std::vector<CommandRow> rows{begin(),   check(), load(),  firing(), print(), cone(),
                                            reached(), probe(), shelf(), why(),    words(), tidy()};
  return rows;
}

const std::vector<OptionRow>& options_everywhere() {
  static const std::vector<OptionRow> rows{
      {"-q,--quiet", "", "results only", &Request::quiet, {}},
      {"--verbose", "", "say what is being done, on standard error", &Request::verbose, {}},
      {"--color",
       "WHEN",
       "colour in messages (NO_COLOR is honoured)",
       &Request::colour,
       {"auto", "always", "never"}},
  };
  return rows;
}

}  // namespace placer::cli
