#include "placer/workbook/studio.h"

namespace placer::workbook {

std::string first_studio() {
  return R"(# yaml-language-server: $schema=./studio.schema.json
# $schema: ./studio.schema.json
#
# A studio file: your kiln, your shelves and posts, what is to be fired. It works as it is.
# Measure your own kiln, change the numbers, then:  placer check
#
# A line is  word: value.  Whatever follows a "#" is a remark. Indent with spaces, never with tabs.
# Any number may carry its unit: 450 mm, 45 cm, 17 3/4 in, 1240 C, 2264 F, 350 g, 12 oz, 6 h 30.
# Every word that the file may hold:  placer words

studio: 1                 # the version of this way of writing
name: The Example Pottery
units: mm, C              # what a number without a unit means; or  in, F

kiln:
  name: Round electric
  loads from: top         # or front
  inside: round 580       # seen from above: round 580, octagon 640, 500 x 450, or its corners
  height: 680             # floor to lid
  heat: electric          # or natural gas, propane, wood, other
  power: 11 kW
  limit: 1300 C           # the hottest that it may become
  keep clear:             # nothing may stand here
    - {what: spy hole, wall: front, size: 80 x 120, from: 300, to: 400}

shelves:
  - {size: half round 520, thick: 18, have: 10}

posts:                    # a level may be one post, or one on another
  - {height: 200, have: 6}
  - {height: 150, have: 12}
  - {height: 100, have: 18}
  - {height: 60, have: 18}
  - {height: 13, have: 24}

clays:
  - {name: stoneware, wet to dry: 6 %, dry to fired: 7 %}

glazes:
  - clear
  - {name: tenmoku, runny: yes}     # runny: more room round it

measured: fired           # when the sizes below were taken: thrown, dry, bisque or fired

pieces:
  - {name: Mug, count: 12, across: 84, handle: 30, height: 100, glaze: clear}
  - {name: Bowl, count: 8, across: 140, height: 70, glaze: clear}
  - {name: Small bowl, count: 8, across: 100, height: 55, glaze: clear}
  - {name: Beaker, count: 6, across: 72, height: 100, glaze: tenmoku}
  - {name: Jug, count: 2, across: 120, handle: 45, spout: 20, height: 200, glaze: tenmoku}
  - {name: Dish, count: 4, oval: 190 x 130, height: 50, glaze: clear, where: low}

firing:
  kind: glaze             # or bisque
  cone: 6                 # 06 is another cone than 6
  start: tomorrow 6:30
  # profile: mid-range    # one of the firing schedules; one that suits is chosen without it
  # quiet: 22:00 to 6:00  # hours in which you want to sleep
)";
}

}  // namespace placer::workbook
