#include <catch2/catch.hpp>
#include <set>
#include <sstream>

#include "cli/program.h"

using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using placer::test::Folder;
using placer::test::Said;

namespace {

const std::vector<std::string> kCommands{"begin",   "check", "load",  "firing", "print", "cone",
                                         "reached", "probe", "shelf", "why",    "words", "tidy"};

/// Every file below the folder with its bytes, as one text to compare.
std::string snapshot(const Folder& folder) {
  std::set<std::string> lines;
  for (const auto& entry : std::filesystem::recursive_directory_iterator{folder.path()}) {
    if (entry.is_regular_file()) {
      lines.insert(entry.path().string() + "\n" + placer::test::slurp(entry.path()));
    }
  }
  std::string all;
  for (const std::string& line : lines) all += line + "\n";
  return all;
}

}  // namespace

TEST_CASE("no arguments: a short help that starts with three examples", "[cli]") {
  const Said said = Folder{}.sh("placer");
  CHECK(said.status == 0);
  CHECK_THAT(said.out, StartsWith("placer: plan a kiln load"));
  CHECK_THAT(said.out,
             Contains("placer begin") && Contains("placer check") && Contains("placer print"));
  CHECK(std::ranges::count(said.out, '\n') <= 12);
  CHECK(said.err.empty());
}

TEST_CASE("the version is printed and ends with 0", "[cli]") {
  const Said said = Folder{}.sh("placer --version");
  CHECK(said.status == 0);
  CHECK_THAT(said.out, StartsWith("placer 0."));
}

TEST_CASE("every command has its help, examples first", "[cli]") {
  const std::string command = GENERATE(from_range(kCommands));
  CAPTURE(command);
  const Said said = Folder{}.sh("placer " + command + " --help");
  CHECK(said.status == 0);
  CHECK_THAT(said.out, StartsWith("placer " + command + ": "));
  std::istringstream lines{said.out};
  std::string line;
  std::getline(lines, line);
  std::getline(lines, line);
  std::getline(lines, line);
  CHECK_THAT(line, StartsWith("  placer " + command));
}

TEST_CASE("a word that is not known: status 2, and the near one is named", "[cli]") {
  CHECK(Folder{}.sh("placer prnt").status == 2);
  CHECK_THAT(Folder{}.sh("placer prnt").err, Contains("Did you mean \"print\"?"));
  CHECK_THAT(Folder{}.sh("placer print --papre a4").err, Contains("Did you mean \"--paper\"?"));
  CHECK(Folder{}.sh("placer print --paper a3").status == 2);
  CHECK(Folder{}.sh("placer load one.yaml two.yaml").status == 2);
}

TEST_CASE("from an empty folder to the sheets with nothing edited", "[cli][flow]") {
  const Folder folder;
  REQUIRE(folder.sh("placer begin").status == 0);
  REQUIRE(folder.has("studio.yaml"));
  REQUIRE(folder.has("studio.schema.json"));
  CHECK(folder.sh("placer check").status == 0);
  const Said load = folder.sh("placer load");
  CHECK(load.status == 0);
  CHECK_THAT(load.out, StartsWith("Plan "));
  const Said firing = folder.sh("placer firing");
  CHECK(firing.status == 0);
  CHECK_THAT(firing.out, Contains("°C") && Contains("°F"));
  const Said print = folder.sh("placer print");
  CHECK(print.status == 0);
  for (const char* name : {"sheets/sheets.pdf", "sheets/sheets.html", "sheets/plan.json",
                           "sheets/plan.csv", "sheets/firing.ics"}) {
    CAPTURE(name);
    CHECK(folder.has(name));
  }
  CHECK_THAT(folder.read("sheets/sheets.pdf"), StartsWith("%PDF"));
}

TEST_CASE("an inch studio reads inches, pounds and °F first in every sentence", "[cli]") {
  const Folder folder;
  folder.write("studio.yaml", placer::test::slurp(PLACER_ROOT "/tests/data/studios/inches.yaml"));
  const Said load = folder.sh("placer load");
  const Said firing = folder.sh("placer firing");
  const Said why = folder.sh("placer why Pitcher");
  std::string heavy = folder.read("studio.yaml");
  heavy.replace(heavy.find("kiln:\n"), 6, "kiln:\n  most on a shelf: 0.5 lb\n");
  folder.write("heavy.yaml", heavy);
  const Said warned = folder.sh("placer check heavy.yaml");
  CHECK_THAT(warned.err, Contains("0.5 lb (0.2 kg) on a shelf"));
  for (const std::string& text : {load.out, firing.out, why.out, warned.err}) {
    CAPTURE(text);
    for (const std::string unit : {" mm", " kg", " °C"}) {
      for (std::size_t at = text.find(unit); at != std::string::npos;
           at = text.find(unit, at + 1)) {
        // In brackets behind the other unit, or behind "/".
        const std::string before = text.substr(at < 40 ? 0 : at - 40, at < 40 ? at : 40);
        if (before.find('|') != std::string::npos) continue;  // the scale of the curve
        CAPTURE(before);
        CHECK(std::max(before.rfind('(') + 1, before.rfind('/') + 1) > before.rfind(')') + 1);
      }
    }
  }
}

TEST_CASE("print does not send one to print again; load does", "[cli]") {
  const Folder folder;
  REQUIRE(folder.sh("placer begin").status == 0);
  CHECK_THAT(folder.sh("placer print").out, !Contains("Next: placer print"));
  CHECK_THAT(folder.sh("placer load").out, Contains("\nNext: placer print\n"));
}

TEST_CASE("begin never overwrites", "[cli]") {
  const Folder folder;
  folder.write("studio.yaml", "mine\n");
  const Said said = folder.sh("placer begin");
  CHECK(said.status == 2);
  CHECK(folder.read("studio.yaml") == "mine\n");
  CHECK_FALSE(folder.has("studio.schema.json"));
}

TEST_CASE("no studio file: says so and how to start", "[cli]") {
  const Said said = Folder{}.sh("placer load");
  CHECK(said.status == 2);
  CHECK_THAT(said.err, Contains("studio.yaml") && Contains("placer begin"));
  CHECK(said.out.empty());
}

TEST_CASE("a mistake in the file: status 2 from every command, nothing changed", "[cli]") {
  const Folder folder;
  REQUIRE(folder.sh("placer begin && placer print --effort quick").status == 0);
  std::string text = folder.read("studio.yaml");
  text.replace(text.find("height:"), 7, "hieght:");
  folder.write("studio.yaml", text);
  const std::string before = snapshot(folder);
  const std::string command =
      GENERATE("check", "load", "firing", "print", "load --json", "check --json");
  CAPTURE(command);
  const Said said = folder.sh("placer " + command);
  CHECK(said.status == 2);
  CHECK(snapshot(folder) == before);
  if (command == "check --json") {
    CHECK_THAT(said.out, Contains("\"mistake\""));
  } else {
    CHECK_THAT(said.err, Contains("studio.yaml:") && Contains("hieght") && Contains("^^^^^^") &&
                             Contains("\"height\""));
    CHECK(said.out.find("Plan") == std::string::npos);
  }
}

TEST_CASE("a mistake in the table of pieces: its own line is shown", "[cli][table]") {
  const Folder folder;
  REQUIRE(folder.sh("placer begin").status == 0);
  std::string text = folder.read("studio.yaml");
  const std::size_t pieces = text.find("pieces:");
  text.replace(pieces, text.find("firing:") - pieces, "pieces: from may.csv\n\n");
  folder.write("deep/studio.yaml", text);
  folder.write("deep/may.csv", "Name,Count,Diameter (cm),Height (cm),Notes\nMug,12,8.4,1O,blue\n");
  const Said said = folder.sh("placer check deep/studio.yaml");
  CHECK(said.status == 2);
  CHECK_THAT(said.err, Contains("deep/may.csv:2:12: \"O\" is not a unit known here") &&
                           Contains("   2 | Mug,12,8.4,1O,blue\n     |            ^^\n") &&
                           Contains("deep/may.csv:1:38: the column \"Notes\" is not used"));
  folder.write("deep/may.csv", "Name,Count,Diameter (cm),Height (cm)\nMug,12,8.4,10\n");
  CHECK_THAT(folder.sh("placer check -v deep/studio.yaml").out,
             Contains("deep/may.csv:\n") && Contains("Diameter (cm)        across, in cm") &&
                 Contains("8.4 cm               84 mm"));
}

TEST_CASE("a file in the way of the sheets: status 2, it stays as it was", "[cli][files]") {
  const Folder folder;
  REQUIRE(folder.sh("placer begin").status == 0);
  folder.write("sheets", "a letter\n");
  const Said said = folder.sh("placer print");
  CHECK(said.status == 2);
  CHECK_THAT(said.err, Contains("sheets"));
  CHECK(folder.read("sheets") == "a letter\n");
}

TEST_CASE("places where no sheets can go: status 2, a plain reason, nothing written",
          "[cli][files]") {
  const Folder folder;
  REQUIRE(folder.sh("placer begin").status == 0);
  folder.write("letter", "a letter\n");
  folder.write("full/sheets.pdf/mine", "mine\n");
  REQUIRE(folder.sh("ln -s nowhere link").status == 0);
  const std::string before = snapshot(folder);
  const auto refused = [&](const std::string& options, const std::string& reason) {
    const Said said = folder.sh("placer print " + options);
    CAPTURE(options, said.err);
    CHECK(said.status == 2);
    CHECK_THAT(said.err, Contains(reason));
    CHECK(snapshot(folder) == before);
  };
  refused("-o ''", "--out is empty");
  refused("-o --paper a4", "--out takes a folder");
  refused("-o letter", "a file is in the way of the folder letter");
  refused("-o letter/deeper", "a file is in the way of the folder letter");
  refused("-o link", "this link leads to no folder: link");
  refused("-o full", "cannot write full/sheets.pdf");
  refused("-o /proc/nothing", "cannot make the folder /proc/nothing");
  refused("-o " + std::string(300, 'a'), "name too long");
  refused("/dev/zero", "cannot read /dev/zero");
}

TEST_CASE("a folder that may not be written: status 2, old sheets intact", "[cli][files]") {
  const Folder folder;
  REQUIRE(folder.sh("placer begin").status == 0);
  folder.write("locked/sheets.pdf", "old sheets\n");
  REQUIRE(folder.sh("chmod a+rx . && chmod 555 locked").status == 0);
  // The administrator may write everywhere, so the program runs as nobody then.
  const std::string as_nobody =
      ::geteuid() == 0 ? "setpriv --reuid=65534 --regid=65534 --clear-groups " : "";
  const std::string program = "'" PLACER_PROGRAM "'";
  if (folder.sh(as_nobody + program + " --version").status != 0) {
    WARN("the program cannot be run as another user here; not tested");
    return;
  }
  const Said said = folder.sh(as_nobody + program + " print -o locked");
  CHECK(said.status == 2);
  CHECK_THAT(said.err, Contains("cannot write in locked") && Contains("denied"));
  CHECK(folder.read("locked/sheets.pdf") == "old sheets\n");
  CHECK(folder.sh("ls locked").out == "sheets.pdf\n");
}

TEST_CASE("a link to a folder is followed; pages of an earlier plan do not stay behind",
          "[cli][files]") {
  const Folder folder;
  REQUIRE(folder.sh("placer begin && mkdir real && ln -s real link").status == 0);
  folder.write("real/svg/firing-9-column-1-shelf-9.svg", "old page\n");
  folder.write("real/svg/mine.svg", "mine\n");
  CHECK(folder.sh("placer print -q --effort quick -o link").status == 0);
  CHECK(folder.has("real/sheets.pdf"));
  CHECK(folder.has("real/svg/firing-1-fetch.svg"));
  CHECK_FALSE(folder.has("real/svg/firing-9-column-1-shelf-9.svg"));
  CHECK(folder.has("real/svg/mine.svg"));
}

TEST_CASE("a full disk: status 2, old sheets intact, no half-written file", "[cli][files]") {
  const Folder folder;
  if (folder.sh("mkdir small && mount -t tmpfs -o size=96k none small").status != 0) {
    WARN("no right to mount a small disk here; not tested");
    return;
  }
  REQUIRE(folder.sh("placer begin").status == 0);
  folder.write("small/sheets.pdf", "old sheets\n");
  const Said said = folder.sh("placer print -o small");
  CHECK(said.status == 2);
  CHECK_THAT(said.err, Contains("small"));
  CHECK(folder.read("small/sheets.pdf") == "old sheets\n");
  CHECK(folder.sh("ls small").out == "sheets.pdf\n");
  folder.sh("umount small");
}

TEST_CASE("the same file gives the same bytes, wherever and whenever", "[cli][same]") {
  const Folder folder;
  REQUIRE(folder.sh("placer begin").status == 0);
  const std::string first =
      "SOURCE_DATE_EPOCH=1793750400 TZ=UTC placer print -q --effort quick -o ";
  CHECK(folder.sh(first + "one").status == 0);
  CHECK(folder.sh("export LC_ALL=C LANG=C; " + first + "two").status == 0);
  CHECK(folder
            .sh("mkdir -p deep/er && cd deep/er && cp ../../studio.yaml . && " + first +
                "../../three")
            .status == 0);
  CHECK(folder.sh("diff -r one two && diff -r one three").status == 0);
}

TEST_CASE("standard input stands in for the file", "[cli]") {
  const Folder folder;
  REQUIRE(folder.sh("placer begin").status == 0);
  const Said said = folder.sh("placer load --effort quick - <studio.yaml");
  CHECK(said.status == 0);
  CHECK(said.out == folder.sh("placer load --effort quick").out);
}

TEST_CASE("colour only when asked for: NO_COLOR and pipes give plain text", "[cli]") {
  const Folder folder;
  folder.write("studio.yaml", "studio: 1\nkiln: 5\n");
  CHECK(folder.sh("placer check").err.find('\x1b') == std::string::npos);
  CHECK(folder.sh("placer check --color always").err.find('\x1b') != std::string::npos);
  CHECK(folder.sh("NO_COLOR=1 placer check").err.find('\x1b') == std::string::npos);
}

TEST_CASE("cone: published values with kind, rate and band", "[cli][cone]") {
  // Sources: the cells of schedules/cones.yaml (cone maker's chart, see there).
  const Folder folder;
  const Said ten = folder.sh("placer cone 10 --rate 60");
  CHECK(ten.status == 0);
  CHECK_THAT(ten.out,
             Contains("1285 °C") && Contains("self-supporting") && Contains("60") && Contains("7"));
  CHECK_THAT(folder.sh("placer cone 06 --rate 150").out, Contains("1013 °C"));
  CHECK_THAT(folder.sh("placer cone 6 --rate 150").out, Contains("1243 °C"));
  CHECK_THAT(folder.sh("placer cone --temperature 1295 --rate 100").out, Contains("cone 10"));
  CHECK(folder.sh("placer cone 66").status == 2);
  CHECK(folder.sh("placer cone 10 --rate 0").status == 2);
  CHECK_THAT(folder.sh("placer cone 10 --rate 60 --json").out, Contains("\"temperature_c\": 1285"));
}

TEST_CASE("man page and completions: the same options as the help", "[cli][written]") {
  const Folder folder;
  const std::string man = folder.sh("placer --write-for man | man -l --warnings - | col -b").out;
  const std::string bash = folder.sh("placer --write-for bash").out;
  const std::string fish = folder.sh("placer --write-for fish").out;
  for (const std::string& command : kCommands) {
    const std::string help = folder.sh("placer " + command + " --help").out;
    for (std::size_t at = help.find("--"); at != std::string::npos; at = help.find("--", at + 2)) {
      std::string option = "--";
      for (std::size_t i = at + 2; i < help.size() && (std::isalpha(help[i]) || help[i] == '-');
           ++i) {
        option += help[i];
      }
      CAPTURE(command, option);
      CHECK(man.find(option) != std::string::npos);
      CHECK(bash.find(option) != std::string::npos);
      if (option != "--help") CHECK(fish.find("-l " + option.substr(2)) != std::string::npos);
    }
  }
  CHECK(folder.sh("placer --write-for man | man -l --warnings - >/dev/null").err.empty());
  CHECK(folder.sh("placer --write-for bash | bash -n").status == 0);
  const Said completed = folder.sh(
      "placer --write-for bash >c; bash -c '. ./c; COMP_WORDS=(placer print --pa); COMP_CWORD=2; "
      "_placer; echo ${COMPREPLY[@]}; COMP_WORDS=(placer print --paper l); COMP_CWORD=3; _placer; "
      "echo ${COMPREPLY[@]}'");
  CHECK(completed.out == "--paper\nletter\n");
}

TEST_CASE("completions are sound in the shells that are installed", "[cli][written]") {
  const Folder folder;
  REQUIRE(
      folder.sh("for s in bash zsh fish; do placer --write-for $s >$s || exit 1; done").status ==
      0);
  if (folder.sh("command -v zsh").status == 0) {
    CHECK(folder.sh("zsh -n zsh").status == 0);
    // Found under its name by the shell's own search.
    CHECK(folder
              .sh("mkdir f && cp zsh f/_placer && zsh -fc 'fpath=($PWD/f $fpath); autoload -U "
                  "compinit; compinit -u -D; print -r -- $_comps[placer]'")
              .out == "_placer\n");
  }
  if (folder.sh("command -v fish").status == 0) {
    CHECK(folder.sh("fish --no-config --no-execute fish").status == 0);
    const auto offered = [&](const std::string& line) {
      return folder
          .sh("HOME=$PWD fish --no-config -c 'source fish; complete -C \"" + line +
              "\"' | cut -f 1")
          .out;
    };
    CHECK(offered("placer pri") == "print\n");
    CHECK(offered("placer print --pap") == "--paper\n");
    CHECK(offered("placer print --paper l") == "letter\n");
  }
}

TEST_CASE("tidy --write: a backup, remarks and line ends kept, the mended file works",
          "[cli][tidy]") {
  const Folder folder;
  REQUIRE(folder.sh("placer begin").status == 0);
  std::string text = folder.read("studio.yaml");
  const auto change = [&](const std::string& from, const std::string& to) {
    REQUIRE(text.find(from) != std::string::npos);
    text.replace(text.find(from), from.size(), to);
  };
  change("pieces:", "peices:  # what is on the board");
  change("across: 84", "diameter: 84");
  change("studio: 1 ", "");
  change("loads from:", "Loads From:");
  folder.write("studio.yaml", text);
  const Said shown = folder.sh("placer tidy");
  CHECK(shown.status == 0);
  CHECK_THAT(shown.out, Contains("peices -> pieces") && Contains("diameter -> across") &&
                            Contains("placer tidy --write"));
  CHECK(folder.read("studio.yaml") == text);
  CHECK(folder.sh("placer tidy --write").status == 0);
  CHECK(folder.read("studio.yaml.before-tidy") == text);
  CHECK_THAT(folder.read("studio.yaml"), Contains("pieces:  # what is on the board\n"));
  CHECK(folder.sh("placer check").status == 0);
  CHECK(folder.sh("placer tidy").out == "Nothing to change.\n");
}

TEST_CASE("the README names every word of the studio file as the program does", "[cli][written]") {
  const std::string readme = placer::test::slurp(PLACER_ROOT "/README.md");
  const Said said = Folder{}.sh("placer --write-for readme");
  REQUIRE(said.status == 0);
  std::istringstream rows{said.out};
  for (std::string row; std::getline(rows, row);) {
    CAPTURE(row);
    CHECK(readme.find(row) != std::string::npos);
  }
}

TEST_CASE("shelf: rows of a size on a shelf of a size, no file needed", "[cli][shelf]") {
  const Folder folder;
  // 6 x 3 squares of 90 mm with 6 mm between them fill 570 x 282 of 600 x 300.
  CHECK_THAT(folder.sh("placer shelf '600 x 300' --piece '90 x 90'").out, StartsWith("18 pieces"));
  // 28 is the record for 84 mm discs, 4 mm apart, on a round shelf of 533 mm (mugs_on_round_shelf,
  // from the tables of circles in a circle); handles leave 27 or 28.
  CHECK_THAT(folder.sh("placer shelf 'round 533' --piece 84 --gap 4").out, StartsWith("28 pieces"));
  CHECK(folder.sh("placer shelf 'round 5x3' --piece 84").status == 2);
  CHECK(folder.sh("placer shelf 'round 533' --piece -4").status == 2);
}

TEST_CASE("shelf: what cannot be is refused with the reason", "[cli][shelf]") {
  const auto refused = [](const std::string& question, const std::string& reason) {
    const Said said = Folder{}.sh("placer shelf " + question);
    CAPTURE(question, said.err);
    CHECK(said.status == 2);
    CHECK_THAT(said.err, Contains(reason));
  };
  refused("'round 1e3' --piece 84", "\"1e3\" has a power of ten in it: write the number out");
  refused("'round 533' --piece 84kg", "is a weight, but a length is needed");
  refused("'round 533' --piece 6000", "from 1 to 5000 mm");
  refused("'round 99999' --piece 84", "from 50 to 5000 mm");
  refused("'round 533' --piece 0", "must be more than 0");
  refused("'round 533' --piece 84 --gap 80-90", "\"80-90\" is a range");
  refused("'round 533' --piece 84 --gap 8,5", "decimal comma");
  refused("'600 x 300 x 20' --piece 84", "three sizes");
  refused("'round 533' --piece '90 x 60' --handle 30", "goes with a round piece");
  refused("533 --piece 84", "takes \"round 533\"");
  // One unit behind both sizes counts for both, a fraction too.
  CHECK(Folder{}.sh("placer shelf '24 x 12½ in' --piece '3 1/4 in'").out ==
        Folder{}.sh("placer shelf '609.6 x 317.5 mm' --piece 82.55").out);
  CHECK_THAT(Folder{}.sh("placer shelf 'round 200' --piece 300").out, StartsWith("0 pieces"));
}

TEST_CASE("probe: no reading without a temperature, and worked values", "[cli][probe]") {
  const Folder folder;
  CHECK(folder.sh("placer probe 600").status == 2);
  CHECK_THAT(folder.sh("placer probe 600").err, Contains("--temperature"));
  // 578 mV at 1250 °C is CO/CO2 0.1: NASA TM-4513 polynomials, computed.
  CHECK_THAT(folder.sh("placer probe 578 --temperature 1250").out, Contains("CO/CO2         0.1"));
}

TEST_CASE("reached: a plain climb of 60 °C/h to 1222 °C brings down cone 6", "[cli][reached]") {
  // 1222 °C at 60 °C/h is the published cell for cone 6, self-supporting.
  const Folder folder;
  std::string log = "hours;temperature C\n";
  for (int c = 22; c <= 1222; c += 10)
    log += std::to_string((c - 22) / 60.0) + ";" + std::to_string(c) + "\n";
  for (int c = 1200; c > 900; c -= 40) {
    log += std::to_string(20.0 + (1222 - c) / 240.0) + ";" + std::to_string(c) + "\n";
  }
  folder.write("log.csv", log);
  const Said said = folder.sh("placer reached log.csv --cone 6");
  CHECK(said.status == 0);
  CHECK_THAT(said.out, Contains("cone 6") && Contains("witness"));
  CHECK(folder.sh("placer reached nothing.csv").status == 2);
  // A firing is named within the usual studio file, whether that is named too or not.
  CHECK_THAT(folder.sh("placer reached log.csv --firing glaze").err, Contains("placer begin"));
  REQUIRE(folder.sh("placer begin").status == 0);
  CHECK_THAT(folder.sh("placer reached log.csv --firing bisque").err,
             Contains("no firing \"bisque\"; it has: glaze"));
  CHECK(folder.sh("placer reached log.csv --firing glaze").out ==
        folder.sh("placer reached log.csv --firing glaze --studio studio.yaml").out);
}

TEST_CASE("load: an empty shelf lifts a bridge where posts alone are never as high", "[cli]") {
  const Folder folder;
  // Posts of whole tens and 18 mm shelves; a spy hole that no shelf may lie at.
  folder.write("studio.yaml", R"(studio: 1
units: mm, C
kiln:
  loads from: top
  inside: round 600
  height: 700
  keep clear: [{what: spy hole, wall: front, size: 80 x 120, from: 150, to: 300}]
  columns:
    - {name: left, at: [-2, 0], turn: 90}
    - {name: right, at: [2, 0], turn: 270}
  bridges: [{name: across, over: [left, right], shelves: [round 540]}]
shelves:
  - {size: half round 540, thick: 18, have: 8}
  - {name: round 540, size: round 540, thick: 18, have: 2}
posts:
  - {height: 150, have: 12}
  - {height: 120, have: 12}
  - {height: 60, have: 12}
  - {height: 40, have: 12}
  - {height: 20, have: 12}
glazes: [clear, celadon]
pieces:
  - {name: Platter, count: 1, across: 410, height: 50, glaze: clear}
  - {name: Mug, count: 4, across: 90, handle: 30, height: 105, glaze: celadon}
firing: {kind: glaze, cone: 6}
)");
  const Said said = folder.sh("placer load");
  CHECK(said.status == 0);
  CHECK_THAT(said.out, Contains("5 of 5 pieces in 1 firing") && Contains("cone pack"));
}
