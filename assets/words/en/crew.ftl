# The crew sheet: what is built, set out, laid and held.

crew-sheet = Crew sheet
not-known = not known
none-needed = none
not-all-known = What is missing to build by
not-all-known-text = The readings do not give a bed yet: stakes, lifts and hold points follow from it. `underbrick check` and the app say what is missing.

# What is built
what-is-built = What is built
fact-address = Address
fact-walk = Walk
fact-length = Length of the run
fact-clear-width = Between the edge bricks
fact-over-edges = Over the edge bricks
fact-fall = Fall
fact-brick = Brick
fact-bond = Bond
fact-setting-bed = Setting bed, compacted
fact-base = Base, compacted
fact-fabric = Fabric
fact-edge = Edge brick
fact-restraint = Held by
fact-string = String
string-above = { $above } above the grade line
string-on = on the grade line
in-lifts = { $thickness } in { $lifts ->
    [one] 1 lift
   *[other] { $lifts } lifts
}
from-to = from { $least } to { $most }
fabric-yes = on the ground, under the base
falls-from-door = { $fall }, away from the door
falls-in-pieces = { $pieces } pieces, see the long section
at-the-door = { $width } at the door

# Edge and restraint
edge-sailor = sailor: on end, broad face to the field
edge-soldier = soldier: on end, narrow face to the field
edge-header = header: flat, square to the run
edge-stretcher = stretcher: flat, along the run
edge-rowlock = rowlock: on its long side, square to the run
restraint-haunch = concrete haunch, { $high } high, { $wide } wide
restraint-spiked = edging with spikes
restraint-nothing = nothing

# Bonds
bond-running = running bond
bond-stack = stack bond
bond-basket-two-on-two = basket weave, two on two
bond-basket-two-on-one = basket weave, two on one
bond-herringbone-90 = herringbone at 90 degrees
bond-herringbone-45 = herringbone at 45 degrees
courses-along = courses along the run
courses-across = courses from side to side

# Cautions
before-you-start = Before anyone digs
caution-services = Have buried services located before anyone digs.
caution-code = Frost and drainage are left to the local code and to licensed practice: nothing here stands for either.
caution-trench = A side of a trench that may slip is sloped or held before anyone steps in.
caution-dust = Cutting brick or stone makes silica dust: cut wet or with extraction, and wear a mask made for it.
caution-concrete = Wet concrete burns skin and eyes: gloves, boots, glasses; wash it off at once.
caution-lifting = Lift brick and stone in loads that one back can bear.

# Setting out
setting-out = Setting out
string-how = Stretch the string over the centreline so that at every stake it hangs { $above } above the grade line. From it the tape is held down: the table gives what it must read. At a riser the string steps with the grade.
string-on-how = Stretch the string over the centreline so that at every stake it marks the grade line. From it the tape is held down: the table gives what it must read. At a riser the string steps with the grade.
stakes = Stakes: from the string down, on the centreline
stakes-rod = Stakes: what the rod must read today
stakes-edge = Stakes: { $side } edge, from the string carried across level
stakes-both-edges = Stakes: left and right edge alike, from the string carried across level
continued = { $what } (continued)
station = Station
why = Why
dig = Dig
dig-note = Dig is from the present surface down to the bottom of the dig.
dig-note-minus = What is filled has a minus.
dig-note-star = * The present surface is not measured there.
why-door = door
why-spacing = spacing
why-leg-end = end of leg { $leg }
why-break = change of fall
why-before-riser = before a riser
why-behind-riser = behind a riser
why-pit = pit { $pit }
why-far-end = far end
surface-dig-bottom = bottom of dig
surface-lift = lift { $number }
surface-form-top = form top
surface-edge-top = edge brick
surface-setting-bed = setting bed
surface-brick-top = brick
side-left = left
side-right = right
form-out = Form, out from the centreline
form-down = Form top
dig-out = Dig, out from the centreline
dig-down = Bottom of dig
trench-down = Bottom of trench

# Curves
curves = Curves
curve = Leg { $leg }, { $side } edge, outer face of the edge brick, from { $from } to { $to }
curve-chord = A straight line from one end to the other measures { $chord }; along the arc it is { $arc }.
curve-swing = Or swing a tape of { $radius } from a point { $out } from the centreline where the leg starts, square to the run, on the side to which it turns.
curve-no-swing = The walk tapers there: set it out by offsets, a tape from a centre does not serve.
along-chord = Along the line
offset = Offset

# Sections
sections = Sections
section-caption = Section at { $station }{ $scale }. From the string: { $drops }.
drop-of = { $surface }: { $drop }
to-scale = , to scale { $scale }
long-section = Along the walk
long-caption = The walk lengthwise{ $scale }. Heights are drawn { $times } times as large as lengths.

# Lifts
lifts = Lifts
lift = Lift
loose-most = Tip at most
compacted-to = Compacted, at its thickest
runs-where = Where
passes = Passes
passes-least = at least { $passes }
passes-note = The fewest passes of any plate that are published for this thickness (Scottish reinstatement specification, table A8.1). The plate's own rule goes before it; 98 % of standard Proctor density is what it must come to.
everywhere = everywhere

# Edge and forms
edge-and-forms = Edge and forms
edge-brick-size = Edge brick: across, along, down
trench = Trench below the base top
trench-size = { $deep } deep, { $wide } wide
forms = Form boards
forms-size = { $length } in { $boards } boards of { $board }
form-stakes = Stakes of the form boards
spacers = Spacers cut to the clear width
concrete = Concrete for the haunch
edge-detail = The right edge in the middle of the walk{ $scale }. The left edge is built the other way round; what changes along the walk stands in the stake tables.

# Screed and gauge rod
screed-and-gauge = Screed board and gauge rod
screed-length = Screed board
screed-notch = Notch at both ends
screed-proud = Brick stands proud before the plate
gauge = Gauge rod: marks from its upper end, which is held to the string
surface = Surface
mark-at = Mark at
mark-where = Holds
mark-least = where the dig is as deep as its least

# Laying
laying = Laying
fact-start = Starts on the
fact-pieces = Pieces in field and edges
fact-bricks = Bricks for all, offcuts used again
fact-joint = Joint
fact-narrowest = Narrowest joint
fact-widest = Widest joint
fact-least-lap = Least lap
at-station = { $size } at { $station }
plan-caption = Laying plan, part { $part } of { $parts }: from { $from } to { $to }{ $scale }. Cut pieces are hatched; their letters stand in the cut list. Match line { $match } stands on both parts.
plan-caption-alone = Laying plan{ $scale }. Cut pieces are hatched; their letters stand in the cut list.
plan-whole = The whole walk from above{ $scale }.
plan-last = Laying plan, part { $part } of { $parts }: from { $from } to { $to }{ $scale }. Cut pieces are hatched; their letters stand in the cut list.
laying-parts = Laying plan in parts
match-line = match line { $letter }
cut-list = Cut list
letter = Letter
pieces = Pieces
how-cut = How
length = Length
width = Width
sides = Sides in order
of-edge = edge
of-field = field
edge-left = edge left
edge-right = edge right
edge-at-door = edge at the door
edge-at-far-end = edge at the far end
kind-whole = whole
kind-three-quarter = three quarters
kind-half = half
kind-cut = cut to length
kind-ripped = cut to width
kind-tapered = cut to a taper
kind-shaped = cut to shape
pieces-whole = { $pieces ->
    [one] 1 whole
   *[other] { $pieces } whole
}
pieces-three-quarter = { $pieces ->
    [one] 1 three-quarter
   *[other] { $pieces } three-quarters
}
pieces-half = { $pieces ->
    [one] 1 half
   *[other] { $pieces } halves
}
pieces-cut = { $pieces ->
    [one] 1 cut to length
   *[other] { $pieces } cut to length
}
pieces-ripped = { $pieces ->
    [one] 1 cut to width
   *[other] { $pieces } cut to width
}
pieces-tapered = { $pieces ->
    [one] 1 cut to a taper
   *[other] { $pieces } cut to a taper
}
pieces-shaped = { $pieces ->
    [one] 1 cut to shape
   *[other] { $pieces } cut to shape
}
part = Part
sawing = Sawing, offcuts used again
sawn-across = { $bricks ->
    [one] 1 brick
   *[other] { $bricks } bricks
} sawn across, each into the pieces of one line
sawn-along = { $bricks ->
    [one] 1 brick
   *[other] { $bricks } bricks
} sawn along, each into the pieces of one line
bricks = Bricks
sawn-into = Into
laying-order = Laying order
course = Course
what-is-laid = What is laid, one after another
first-at = first middle at
and-more-courses = { $courses ->
    [one] And 1 more course, which is laid as the plan shows.
   *[other] And { $courses } more courses, which are laid as the plan shows.
}

# Hold points
hold-points = Hold points
hold-note = A stage is closed on readings that are right, or on a reason with initials. The next one waits for it.
cautions-as = Take care as in: { $stage }.
read = Read
initials = Initials
tolerance = Right within
stage-lift-brick = Lift the brick
stage-dig = Dig, trim, compact the bottom
stage-fabric = Fabric
stage-lift = Lift { $number }
stage-forms = Form boards
stage-edge = Edge brick
stage-restraint = Haunch or edging
stage-riser = Riser { $number }
stage-setting-bed = Setting bed
stage-field = Field
stage-jointing = Joints
stage-hand-over = Hand over
check-level = { $surface } at { $station }
check-level-beside = { $surface } at { $station }, { $offset } { $side }
check-level-side = { $surface } at { $station }, { $side }
at-the-door-itself = the door
check-lift-loose = Lift { $number } as tipped, at its thickest
check-lift-passes = Passes over lift { $number }
check-stage-before = "{ $stage }" is closed before it
check-straightedge-base = Gap under a straightedge of { $long } on the base
check-straightedge-brick = Gap under a straightedge of { $long } on the brick
check-lippage = Step from one brick to the next
check-joint-width = Width of a joint
check-joint-fill = How far the jointing lies below the top
check-bond-line = How far a bond line leaves a string of { $long }
check-above-inlet = How far the brick stands above a drain inlet
within = { $high } high, { $low } low
at-most = at most { $most }
by-hand = No reading is asked for: looked over and closed by hand.
closed-by = Closed by, date
reason = Reason, if not all is right

stage-caution-lift-close = Lift brick close to the body and with the legs, a few at a time; gloves and toe caps.
stage-caution-old-jointing = Brick and old jointing are dry dust when they are knocked clean: wet them, and stand upwind.
stage-caution-services = No digging before buried services are located and marked; in the United States call 811, some days ahead. Within the marked zone dig by hand.
stage-caution-trench = The side of a trench can fall in. Where it shows any sign of it, or is 5 ft deep, nobody goes in before a competent person has seen it and it is held or sloped; from 4 ft there is a way out within 25 ft.
stage-caution-spoil = Spoil and stone lie at least 2 ft back from the side of the dig.
stage-caution-fabric = Cut fabric away from the body, and pin it before the wind takes it.
stage-caution-plate = The plate shakes hands and arms and is loud: hearing protection, gloves, turns with someone else.
stage-caution-plate-lift = Two people lift the plate. It is stopped before anything is put right on it, and it does not run where its exhaust gas stands.
stage-caution-dry-stone = Dry stone is dust: wet it before it is tipped and raked.
stage-caution-stakes = Stakes go deeper than the dig: drive them only where services were located.
stage-caution-pins = Cap or cut off stakes and string pins that stand up where someone may fall on them.
stage-caution-kneel = Lift brick close to the body; kneel on a pad.
stage-caution-cut-wet = Cutting brick makes silica dust: cut wet, with water running on the blade; eyes and ears protected.
stage-caution-concrete = Wet concrete burns the skin: gloves, boots, long sleeves and eye protection; wash it off at once with much water.
stage-caution-cement = Dry cement is dust that harms the lungs: tip bags low and out of the wind.
stage-caution-bags = Bags of 80 lb are lifted by two.
stage-caution-spikes = Spikes go deeper than the dig: drive them only where services were located; eye protection.
stage-caution-riser = An open riser is a fall: close the walk off until its tread is laid.
stage-caution-screed = Screed from a board, kneeling on a pad, with the back straight.
stage-caution-cut-dry = Cutting brick makes silica dust: cut wet, with water running on the blade. Dry, it is not cut without a shroud, a vacuum and a respirator.
stage-caution-saw = Eyes and ears protected at the saw; its cable and plug stay out of the water, behind a ground-fault breaker.
stage-caution-jointing = Dry jointing is dust: sweep with the wind, and do not blow it about.
stage-caution-local-office = Frost, drainage onto neighbours and access are for the local building office and a licensed professional to judge.
stage-caution-local = Local code, the rules of the site and those of licensed practice go before all of this.
