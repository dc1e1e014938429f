# What drawings say in sentences to whoever cannot see them, in English as they write it; turned as labels are, see drawing.ftl.

# Cross-section in words
d-s-cross-section = Cross-section at { $n }, looking away from the door, to scale.
d-s-grade-line = The grade line is { $place } the sill here.
d-s-old-surface = The old surface is { $place } the grade line.
d-s-old-surface-not-here = The old surface is { $place } the grade line, not measured here.
d-s-old-surface-unknown = The old surface is not measured.
d-s-widths = Clear width { $n } in { $bricks }, { $m } over the edge brick, dig { $k } wide: { $j } past the edge brick each side.
d-s-one-brick = 1 brick
d-s-bricks = { $n } bricks
d-s-brick = Brick { $n } thick, { $m } joints, on a setting bed of { $k }.
d-s-base-top = Base top { $n } below the grade line.
d-s-base = Base { $n } thick in { $lifts } of at most { $m } compacted, { $k } loose.
d-s-one-lift = 1 lift
d-s-lifts = { $n } lifts
d-s-dig-bottom = Bottom of the dig { $n } below the grade line.
d-s-fabric = Fabric lies on the undisturbed ground.
d-s-edge = { $name } on both sides, { $n } deep, { $held }.
d-s-must-come-out = What must come out ends { $place } the grade line.
d-s-no-bottom = The bottom of what must come out was not found: { $deep }.
d-s-nearest-pit = Nearest pit, pit { $n } at { $m }, { $away }: { $layers }.
d-s-no-pit = No pit: depth not known; the least base is drawn.
d-s-near-cut = Near the cut, { $name }: { $what }.
d-s-base-of = Base of { $name }.

# Long section in words
d-s-long-section = Long section over { $n } on the centreline, heights × { $m }.
d-s-grade-fixed = The grade line starts { $start } the sill, { $fall }, and ends { $end } the sill; the far end is fixed.
d-s-grade-free = The grade line starts { $start } the sill, { $fall }, and ends { $end } the sill; the far end is free.
d-s-old-from-to = The old surface is measured from { $n } to { $m }.
d-s-dig = The dig is { $n } to { $m } deep below the grade line.
d-s-lift-drawn = Lift { $n } from the bottom is drawn in { $parts }.
d-s-one-part = 1 part
d-s-parts = { $n } parts
d-s-curves-right = The walk curves right from { $n } to { $m }.
d-s-curves-left = The walk curves left from { $n } to { $m }.
d-s-pit = Pit { $n } at { $m }: { $layers }.
d-s-strength = CBR { $n } at its bottom
d-s-cut-at = The cross-section is cut at { $n }.

# Signs and readings in words
d-s-sign-at = { $name }, { $how }, at { $n }
d-s-sign-along = { $name }, { $how }, all along
d-s-slight = slight
d-s-plain = plain
d-s-bad = bad
d-s-sunk = Sunk
d-s-heaved = Heaved
d-s-rocking = Rocking brick
d-s-open-joints = Open joints
d-s-moss = Moss or weeds
d-s-ponding = Ponding
d-s-edge-spread = Edge spread
d-s-cracked = Cracked or spalled brick
d-s-root = Root
d-s-downpipe = Downpipe
d-s-sign = Sign
d-s-pit-seep = Pit { $n }, seep { $m } down
d-s-pit-layer = Pit { $n }, { $layer }
d-s-no-thickness = { $name }, thickness not measured
d-s-very-soft = { $name }, very soft
d-s-soft = { $name }, soft
d-s-firm = { $name }, firm
d-s-hard = { $name }, hard
d-s-very-hard = { $name }, very hard
d-s-dry = { $name }, dry
d-s-moist = { $name }, moist
d-s-wet = { $name }, wet
d-s-level-at = Level at { $n }, reads { $m }
d-s-level = Level, reads { $m }
d-s-sill-above = Sill above old brick
d-s-far-end-below = Far end below sill
d-s-brick-length = Brick length
d-s-brick-width = Brick width
d-s-joint = Joint
d-s-least-base = Least base
d-s-leg-radius = Leg { $n } radius { $m }
d-s-whole-follows = with joints midway in their limits whole brick follows from { $n }
d-s-nothing-holds = Nothing holds the new edge
d-s-no-fabric = No fabric under the new base

# Edge in words
d-s-right-edge = The right edge at { $n }, looking away from the door, to scale.
d-s-edge-brick = Edge brick { $n } across, { $m } deep, { $k } past it to the side of the dig.
d-s-haunch = Its haunch is { $n } high and { $m } wide, its upper end { $k } below the top of the edge brick.

# Plan in words
d-s-plan = Plan to scale over { $n } on the centreline, { $name }.
d-s-clear = It is { $n } clear, { $m } over the edges.
d-s-clear-tapers = It is { $n } clear, { $m } over the edges at the door and { $k } clear, { $j } over the edges at the far end.
d-s-plan-curves-right = It curves right from { $n } to { $m }, radius { $k } on the centreline, { $j }.
d-s-plan-curves-left = It curves left from { $n } to { $m }, radius { $k } on the centreline, { $j }.
d-s-none-laid = No brick is laid out.
d-s-one-piece = 1 piece: { $kinds }.
d-s-pieces = { $n } pieces: { $kinds }.
d-s-whole = { $n } whole
d-s-along-right = Courses run along the walk; laying starts at the door on the right.
d-s-along-left = Courses run along the walk; laying starts at the door on the left.
d-s-across-right = Courses run across the walk; laying starts at the door on the right.
d-s-across-left = Courses run across the walk; laying starts at the door on the left.
d-s-joints = Joints are { $n } to { $m }; the widest is in course { $k } at { $j }.
d-s-least-lap = The least lap is { $n } in course { $m } at { $k }.
d-s-walk-falls = The walk { $fall } away from the door.
d-s-falls-across-right = It { $fall } across, down to the right.
d-s-falls-across-left = It { $fall } across, down to the left.
d-s-opening = An opening of { $n } by { $m } is left free at { $k }.
d-s-one-not-laid = 1 thing could not be laid as asked.
d-s-not-laid = { $n } things could not be laid as asked.
d-s-bearing = The way out of the door bears { $n } from north.
d-s-no-north = North is not known.

# Where nothing can be drawn yet
d-s-section-not-known = Cross-section not known yet.
d-s-long-not-known = Long section not known yet.
d-s-plan-not-known = Plan not known yet.
