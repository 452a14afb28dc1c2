#include "placer/workbook/explain.h"

#include <algorithm>
#include <array>

namespace placer::workbook {
namespace {

struct Explanation {
  std::string_view code, text;
};

// By alphabet. What happened, why it matters, what to do; a line or two each.
constexpr std::array kExplanations = {
    Explanation{"after-end",
                "The file is one list of words with their values. From this line on it is "
                "something else, and everything below would be lost without a sound. Usually a "
                "line above begins too far to the left, or a \"-\" has no word over it."},
    Explanation{"air",
                "Between the tallest piece and the shelf above there must be some air: glaze "
                "swells, handles lift, and shelves sag when hot. The room is \"air\" in the rules "
                "(8 mm in a glaze firing unless the file says otherwise)."},
    Explanation{"air-said",
                "The plan says another height of air over the pieces than its own shelves and "
                "pieces give. Make the plan again."},
    Explanation{"alias",
                "\"&\" and \"*\" at the beginning of a value have a meaning in this kind of file "
                "that a studio does not need. Put the value in quotes, or write it out."},
    Explanation{"both",
                "Two words say the same thing in two ways, and only one of them can hold. Take "
                "one away."},
    Explanation{"bracket",
                "Every \"[\" needs a \"]\" and every \"{\" a \"}\", in the right order. Count them "
                "in this line and just above."},
    Explanation{"bridge",
                "A bridge is a larger shelf that rests on the posts of two columns or more, all "
                "ending at one height. It must reach over the posts of each of them, lie inside "
                "the kiln, and keep off columns that it does not rest on. \"at\" is the middle "
                "of the shelf."},
    Explanation{"character",
                "There is something in the line that no screen shows, often from copying out of a "
                "web page or a letter. Delete the word with what is round it and type it again."},
    Explanation{"choice",
                "This word takes one of a few values. placer words PLACE lists them all."},
    Explanation{"clear-height",
                "The room from one shelf to the next must follow from the posts between them. The "
                "plan says something else. Make the plan again."},
    Explanation{"clock",
                "A time of the day is written 6:30 or 18:00 or 6:30 pm, with a day in front if it "
                "is not the next one: tomorrow, Saturday, 2026-11-25."},
    Explanation{"close",
                "Two pieces stand nearer to each other than the rules ask for. Glazed pieces that "
                "touch stick together for good; a runny glaze needs more room still."},
    Explanation{"colon",
                "A \":\" with a blank behind it parts a word from its value, so a value that holds "
                "one itself needs quotes: note: \"second try: thinner\"."},
    Explanation{"column",
                "A column is a pile of shelves carried by its own posts. The shelves of two "
                "columns must not stand in each other, seen from above. \"at\" is the middle of "
                "the shelf, of a half round the middle of its flat side."},
    Explanation{"cone",
                "Cones are called by names, not numbers: 06 is far cooler than 6, and 010 cooler "
                "than 10. Seger cones are another series again. placer cone 6 shows what the "
                "tables hold."},
    Explanation{"cones",
                "Each spy hole has one pack of cones set before it, or the plan says why there is "
                "none. Make the plan again."},
    Explanation{"cones-hidden",
                "A pack of cones is said to be in sight of its spy hole, and something stands "
                "between. Make the plan again."},
    Explanation{"cones-place",
                "A pack of cones stands over the edge of its shelf or too near to something, or "
                "has too little room over it. Make the plan again."},
    Explanation{"cool",
                "A reading is colder than any studio: a slip, or the other scale. It is left out."},
    Explanation{"cooling",
                "The kiln cools at its own pace once the heat is off: faster than the schedule "
                "asks where it is thin, slower where it is thick and full. Times of opening "
                "follow the kiln, not the wish."},
    Explanation{"count",
                "Every piece must be in the plan once for each firing that it needs, or be listed "
                "as left out. Here the numbers do not add up. Make the plan again."},
    Explanation{"damp",
                "Ware that is not bone dry bursts when steam cannot get out. Candle below boiling "
                "until a cold mirror at the vent stays clear, however long it takes."},
    Explanation{"dash",
                "\"- \" begins an item of a list. It stands on a line of its own under the list's "
                "word, all items of one list equally far from the left."},
    Explanation{"day", "A day is written year-month-day: 2026-11-25."},
    Explanation{"decimals",
                "In a table, 12,5 and 12.5 are the same number in two countries, and 1,234 can be "
                "two numbers. Use one sign throughout, and none for thousands."},
    Explanation{"deep",
                "Lists within lists within lists: no studio needs so many. Most likely a bracket "
                "is missing or doubled."},
    Explanation{"empty",
                "The word is there and nothing behind it. Give it a value, or take the word away "
                "and the usual value holds."},
    Explanation{"encoding",
                "Letters like é or ø are stored differently by old programs. Open the file in an "
                "editor, choose \"save as\" and the encoding \"UTF-8\". In a spreadsheet choose "
                "\"CSV UTF-8\"."},
    Explanation{"fast",
                "The schedule climbs faster than this ware stands: through steam, bound water or "
                "573 C. Slower there, or thinner and drier ware."},
    Explanation{"fewest",
                "The plan claims that no other plan needs fewer loads, and that is not so. Make "
                "the plan again."},
    Explanation{"floor", "Something stands lower than the kiln's floor. Make the plan again."},
    Explanation{"fuel",
                "The burners give less heat than the firing takes. The power given for the kiln "
                "is the most that its burners give."},
    Explanation{"furniture",
                "What the plan says of shelves and posts in use is not what it uses. Make the "
                "plan again."},
    Explanation{"gap",
                "The log has a long time without a reading: what the kiln did then is taken to be "
                "a straight line."},
    Explanation{"hash",
                "A \"#\" behind a blank begins a remark, and everything from there to the end of "
                "the line is not read. \"Mug #2\" in quotes keeps its #2."},
    Explanation{
        "heavy",
        "The piece alone weighs more than the limit of the kiln: \"most on a shelf\" or "
        "\"most in a load\". Weights are reckoned for the moment when it goes in: a dry pot "
        "is heavier than a fired one."},
    Explanation{"hot",
                "A reading is hotter than any kiln: a slip, or the other scale. It is left out."},
    Explanation{"in-the-way",
                "A bag wall, a sensor or the like that goes from the floor to the roof leaves no "
                "height at which this shelf could stand. Give the thing its height (from, to), "
                "make it smaller, or move the column."},
    Explanation{"indent",
                "Lines that belong together begin equally far from the left, with spaces. A line "
                "that begins one space further in or out belongs to something else."},
    Explanation{"jump",
                "Between two readings the kiln moves faster than a kiln can: one of them is "
                "wrong, or a sensor failed."},
    Explanation{"keep-out",
                "A piece or a shelf stands where the file says that nothing may: in front of a "
                "spy hole, at a sensor, a bag wall, a burner or the flue."},
    Explanation{"kind",
                "The word takes another form of value: a single one, a list in [ ], or words with "
                "their values in { }. placer words PLACE shows an example of each."},
    Explanation{"large",
                "The file is larger than any studio's. If it is the right file, split it."},
    Explanation{"left-out",
                "What is said of a piece that was left out does not hold. Make the plan again."},
    Explanation{"levels",
                "The shelves of a column must be numbered from the bottom and follow each other. "
                "Make the plan again."},
    Explanation{"lid",
                "A lid is fired on its pot, so that they keep fitting. There must be a pot for "
                "each lid."},
    Explanation{"lid-room",
                "The tallest piece on the top shelf is too near to the lid or roof. The room is "
                "\"under lid\" in the kiln."},
    Explanation{"limit",
                "The firing would go over the limit given for the kiln, the shelves or the ware. "
                "Elements, shelves and walls age fast above what they are made for. A lower cone, "
                "or a long hold at a lower top, may do."},
    Explanation{"log", "The log holds too few readings to say anything of the firing."},
    Explanation{"long", "The name is too long to be printed beside a drawing. Shorten it."},
    Explanation{"mark",
                "\"!\" at the beginning of a value has a meaning in this kind of file that a "
                "studio does not need. Put the value in quotes."},
    Explanation{"mass", "The plan says another weight than its pieces have. Make it again."},
    Explanation{"missing",
                "This word must be there; without it nothing can be planned. The message shows "
                "how to write it."},
    Explanation{"name",
                "Names are how one part of the file speaks of another, and how the sheets tell "
                "things apart: each must be there once only."},
    Explanation{"number",
                "A number is 12, 12.5, 3/4 or 17 3/4, with a unit behind it if it is not the "
                "usual one of the file: 450 mm, 45 cm, 17 3/4 in, 1240 C, 2264 F, 350 g, 6 h 30."},
    Explanation{"numbers",
                "Pieces on a shelf are numbered from 1 in the order of setting. The plan does "
                "otherwise. Make it again."},
    Explanation{"outline",
                "The corners of an outline are listed one after another round the shape, three at "
                "least, without crossing the line already drawn."},
    Explanation{"overhang", "A piece stands over the edge of its shelf."},
    Explanation{"owned", "The plan uses more shelves or posts than you own."},
    Explanation{"past", "The start or finish given is over. Give a later one, or tomorrow 6:30."},
    Explanation{"percent",
                "Shrinkage and losses are percentages: 6 % is written 6 or 6 %, not 0.06."},
    Explanation{"plan", "The plan speaks of something that is not in the studio file."},
    Explanation{"post",
                "Posts carry a shelf at three or four points. They must be lower than the kiln, "
                "and stand on the shelf below with their whole foot."},
    Explanation{"post-count",
                "A shelf stands steady on three posts, or on four with a pad under the short one; "
                "one column keeps to one of the two."},
    Explanation{"post-idle", "A post stands there and carries nothing."},
    Explanation{"post-line",
                "The posts of a column stand exactly above one another, or the shelves between "
                "them bend and crack."},
    Explanation{"post-near", "A piece stands too near to a post."},
    Explanation{"post-off", "A post stands over the edge of its shelf."},
    Explanation{"post-parts", "A post is built of more parts than stand safely, or of none."},
    Explanation{"post-place", "A post does not stand where the file says."},
    Explanation{"post-shelf", "A post does not reach the whole of the shelf that it carries."},
    Explanation{"post-touch", "Two posts stand in one place."},
    Explanation{"post-uneven",
                "All posts under one shelf must be equally high, or the shelf rocks."},
    Explanation{"posts",
                "There are not enough posts of the heights that it would take. placer why PIECE "
                "says which ones would help."},
    Explanation{"power",
                "The kiln gives less heat than the schedule asks for, so it falls behind and "
                "takes longer. Slow the climb at the end, load less, or check the elements or "
                "burners and the power given in the file."},
    Explanation{"price", "A price is a number, a currency and /kWh: 0.32 EUR/kWh, $0.16/kWh."},
    Explanation{"probe",
                "A probe's reading means nothing without the temperature at which it was taken."},
    Explanation{"profile",
                "A profile is a firing schedule kept in a file of its own, in plain words and "
                "numbers. Copy one that is near, change it, and name it in the firing."},
    Explanation{"quotes",
                "Some characters at the beginning of a value need quotes round it: @ ` % & * ! | "
                "> [ ] { } , and quotes themselves. Every quote that opens must close."},
    Explanation{"quiet",
                "Something falls into the hours in which you want to sleep. Move the start, or "
                "the hours."},
    Explanation{"range",
                "The number can be read and makes no sense for this thing: less than nothing, "
                "larger than any kiln, or a slip of the unit."},
    Explanation{"reduction",
                "Below about 760 C a smoky flame does not burn by itself: unburnt gas gathers in "
                "the kiln and can explode when it lights. Begin reduction above it, by the kiln's "
                "manual and the local rules for gas."},
    Explanation{"rounds", "The loads of a firing must be numbered from 1. Make the plan again."},
    Explanation{"row", "A line of the log cannot be read and is left out; the rest is used."},
    Explanation{"scale",
                "The temperatures can be meant in C or in F. Name the scale in the heading: "
                "temperature (C)."},
    Explanation{"second",
                "A line of --- begins a new file within the file. Only the first would be read."},
    Explanation{"segments",
                "The controller cannot hold so few steps. Give the number that its manual says."},
    Explanation{"shape",
                "A shape seen from above is told as round 580, half round 560, octagon 640, 500 x "
                "450, or by its corners one after another: [[0, 0], [500, 0], [500, 300], [0, "
                "300]]."},
    Explanation{"shelf",
                "The shelf, set where its column stands, goes through the wall of the kiln. "
                "Measure both again; of a half round the straight side is its diameter."},
    Explanation{"shelf-height", "The height of a shelf does not follow from what is under it."},
    Explanation{"shelf-kind", "A shelf stands in a column that it does not belong to."},
    Explanation{"shelf-near", "A shelf is too near to a piece of another column."},
    Explanation{"shelf-place", "A shelf does not stand where its column is."},
    Explanation{"shelf-touch", "Two shelves are in one place."},
    Explanation{"shelf-wall", "A shelf is too near to the wall."},
    Explanation{"shelves", "There are not enough shelves that fit."},
    Explanation{"size", "The plan says another size than the piece has when it goes in."},
    Explanation{"snug",
                "Between shelf and wall the heat must pass and a hand must reach: 15 mm are "
                "usual, 25 to 40 mm better in a round kiln, 50 mm at a flue or bag wall. When you "
                "know that it is close and have fired so before, say  snug: yes  for the shelf; "
                "or give your own room with  shelf to wall  in the kiln."},
    Explanation{"stack",
                "In a bisque firing pieces may stand in or on each other, within what the file "
                "allows for the kind (stack)."},
    Explanation{"stall",
                "In heavy reduction the kiln stops climbing: gas that is not burnt gives no heat. "
                "Let more air in until it climbs, then close a little."},
    Explanation{"tab",
                "A tab looks like spaces and is none, and every editor shows it at another "
                "width. Replace it with spaces."},
    Explanation{"table",
                "A table needs one sign between its columns, the same number of fields in every "
                "line, and quotes round a field that holds that sign itself."},
    Explanation{"tall",
                "Sizes are reckoned for the moment when the piece goes in: a dry pot is taller "
                "than a fired one. Above the lowest shelf the kiln has its height less the room "
                "under the first shelf, the shelf itself and the room under the lid."},
    Explanation{"temperature",
                "The temperature cannot be meant: too cold for any ware, or hotter than any kiln. "
                "Often it is F given as C: 2232 F are 1222 C."},
    Explanation{"tips", "The shelf's load lies outside the posts that carry it: it would tip."},
    Explanation{"too-heavy",
                "More ware stands on a shelf, or in the kiln at once, than the limit in the kiln "
                "allows. Make the plan again."},
    Explanation{"twice",
                "A word can be given once in a block. Of two the second would win or lose without "
                "a sound, so neither is taken."},
    Explanation{"two-lines",
                "A value that runs on into the next line is usually a forgotten \":\" or \"-\". A "
                "long text in quotes may run over several lines."},
    Explanation{"units",
                "units: mm, C  or  units: in, F  says what a number without a unit means. A "
                "weight may be added: g, kg, lb or oz."},
    Explanation{"unknown",
                "The file speaks of something by a name that it gives to nothing. Names must be "
                "written alike in both places, capitals too."},
    Explanation{"unreadable",
                "The line breaks the few rules of this kind of file: word: value, \"- \" for the "
                "items of a list, spaces to indent, quotes round odd characters."},
    Explanation{"unusable", "The file cannot be used."},
    Explanation{"unused",
                "The program sets half-round shelves in two columns, and others in as many "
                "columns as fit. Shelves of both kinds together need columns told by you."},
    Explanation{"version",
                "The first word of a studio file, studio: 1, says which way of writing it is. "
                "Older files will be read for ever; newer ones need the newer program."},
    Explanation{"wall", "A piece stands too near to the wall or the elements."},
    Explanation{"which",
                "There are several firings that the piece could be meant for. Name one: firing: "
                "red glaze."},
    Explanation{"wide",
                "A piece must stand on its shelf with its whole body, and no shelf is wide "
                "enough. Two half-round shelves do not make a round one: a full shelf would "
                "carry it."},
    Explanation{
        "overlap",
        "Two firings of one kiln need time between them: the kiln must cool below 60 °C, be "
        "unloaded and set again. Give the later one a later start."},
    Explanation{"wish-apart", "Two glazes that were to be kept apart are on one shelf."},
    Explanation{"wish-first", "A piece was to go in the first load and does not."},
    Explanation{"wish-level", "A piece is not on the shelf that was asked for."},
    Explanation{"wish-lid", "A lid is not on its pot."},
    Explanation{"wish-pinned", "A piece is not at the place that was given for it."},
    Explanation{"wish-set", "Pieces of one set are in different loads."},
    Explanation{"wish-side", "A piece is not at the side that was asked for."},
    Explanation{"wish-turn", "A piece is turned otherwise than asked for."},
    Explanation{"wish-zone", "A piece is not at the height that was asked for."},
    Explanation{"wishes",
                "The wishes for this piece leave it no place. placer why PIECE says which one "
                "would let it in."},
    Explanation{
        "weight",
        "The piece would weigh more than a solid block of clay of its size, which no pot "
        "does. A number without a unit is read in the unit of the \"units\" line, kg unless "
        "it says otherwise: write 350 g for grams."},
    Explanation{"word",
                "The file holds a word that is not known at this place, so what stands behind it "
                "would be lost. placer words lists all of them; placer tidy mends misspelt ones."},
    Explanation{"yes-no", "This word takes yes or no."},
    Explanation{"zone",
                "A time zone is written by continent and city: Europe/Dublin, America/Chicago. "
                "Without one, this computer's own is taken."},
};

}  // namespace

std::optional<std::string> explain(std::string_view code) {
  const auto found = std::ranges::find(kExplanations, code, &Explanation::code);
  if (found == kExplanations.end()) return std::nullopt;
  return std::string{found->text};
}

std::vector<std::string> explained_codes() {
  std::vector<std::string> codes;
  for (const Explanation& one : kExplanations) codes.emplace_back(one.code);
  return codes;
}

}  // namespace placer::workbook
