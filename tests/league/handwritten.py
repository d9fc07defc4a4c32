"""What our staff wrote by hand: pages, our program's settings, habits of our own, the series."""

PAGES: dict[str, str] = {
    "pages/how-we-grade.md": """\
---
for: [recruiting]
---

# How we grade

CV grades, DSK and TMW when he is away. One look is a look, not a grade: two games at least, one of them on video.

- Grade what he does, then what he may do. Write down what you saw of each tool in a sentence.
- The stopwatch stands beside the grade. Where they disagree, look again before you change either.
- Grades are for us. They are on no page that a player of ours opens, and on none about tonight.
""",
    "pages/meeting-notes.md": """\
# Meeting notes

Hitters' meeting, Thursday after practice. Come with your own notes; nobody checks who read what.

## Friday

- Know what you look for on the first pitch from your side before you step in.
- Second time through the slider comes up. Tell the bench what you saw the first time.
- Say it when the chart is wrong. A chart from February is a guess in April.

## Saturday and Sunday

- Saturday is a left-hander who slows everything down. Let it travel.
- Sunday's starter hits as well; pitchers, he is a hitter in the fifth spot on Saturday.

## What we still want to see

- The closer with a runner on second. Nobody has a look yet.
- Whether the left-hander has a slide step at all.
""",
    "pages/travel-plan.md": """\
# Travel plan

| When | What |
|---|---|
| Thursday 1:00 pm | Bus leaves from the fieldhouse |
| Thursday 5:30 pm | Arrive at the hotel, team meal |
| Friday 2:15 pm | Bus to the park |
| Friday 6:00 pm | First pitch |
| Saturday 2:00 pm | First pitch |
| Sunday 12:00 pm | First pitch, bus home after the game |

Read what you need on the bus or at the hotel. Phones stay in the clubhouse from batting practice until the last out;
the cards are on paper.
""",
    "pages/how-we-chart.md": """\
---
for: [staff]
---

# How we chart

Three of us chart: AJR and TMW from video, DSK at our own games and on Tuesdays.

- **Time to the plate**: first move that commits him, to the mitt. By watch, or by frames where the video is good.
- **Return throw**: out of the catcher's hand to the pitcher's glove.
- **Looks**: every turn of the head to the runner on second after he comes set.
- **Third baseman's feet**: from the bag to where he stands when the pitch crosses the plate.
- Warm-up throws are marked. They do not count with the game's.

Write down only what you saw. A blank cell says that nobody looked; that is worth knowing too.
""",
}

#: content/program.yml; `runs` and `roster` are filled in.
PROGRAM = """\
# Kestrel Ridge, Lantern Coast Conference: our own team and every setting of the project.
key: ridge
name: Kestrel Ridge

run_environment:
  runs_per_team_game: {runs}  # the games we charted this spring

policy:
  devices_in_dugout: no

# Beside the usual short forms our charters write these.
pitches:
  - {{name: sweeper, aliases: [SW]}}

zone: {{bottom_ft: 1.6, top_ft: 3.4}}

# How sure is sure: half-widths of the 90 % interval, and what we call few.
thresholds: {{firm: 0.10, usable: 0.15, lean: 0.20, few_readings: 5, few_games: 2, few_looks: 3, stale_days: 21}}
watch_error_s: 0.10

levels:
  infield: 4
  outfield: 3
  step_ft: 2.5
  infield_legend: [straight up, two to four steps to pull, three men on the pull side, everything to pull]
  # Steps to the pull side for a right-handed hitter: third, short, second, first.
  infield_stands:
    - {{steps: [0, 0, 0, 0]}}
    - {{steps: [2, 3, 4, 2]}}
    - {{steps: [2, 8, 26, 9], depth_ft: [112, 150, 155, 125]}}
    - {{steps: [3, 12, 33, 25], depth_ft: [114, 150, 158, 145]}}
  outfield_legend: [straight up, one shade to pull, full shade to pull]
  outfield_steps: [0, 15, 30]
  opposite_mark: opp

roster:
{roster}
"""

HABITS = """\
# Habits of our own, on top of the usual ones.
habits:
  - key: walks-behind-mound
    position: 1
    question: Does he walk off the back of the mound with a runner on?
    statement: Walks off the back of the mound with a runner on
    gives: A head start for a runner who leaves while his back is turned.
    page: pitcher
    decision: delayed steal
    opens: delayed_steal
"""

#: The series to come; `lineup` and `bullpen` are filled in.
SERIES = """\
title: At Gannet Harbor
opponent: harbor
start: 2026-04-10
end: 2026-04-12
where: away

probables:
  - {{game: Friday, date: 2026-04-10, pitcher: iker-nunez}}
  - {{game: Saturday, date: 2026-04-11, pitcher: bexley-tran}}
  - {{game: Sunday, date: 2026-04-12, pitcher: solomon-adeyemi-frost}}

catcher: ruben-castellane
lineup: [{lineup}]

plan:
  - about: hitters
    text: 'Friday, right-handers: look for the fastball early, let the slider off the plate go until it is a strike.'
  - about: hitters
    text: 'Friday, left-handers: look for the fastball; the curve is his other first pitch, the change his other last.'
  - about: hitters
    text: 'Saturday: stay back, use the middle. The change to right-handers, the curve to left-handers.'
  - about: running
    text: 'Runner on third: work the lead off the third baseman, watch the lob. The third-base coach says when.'
  - about: running
    text: 'No straight steal on the slide step.'
  - about: defense
    text: 'Vandersloot: everything to the pull side. Tarkowski: straight up until we have more of his balls.'
  - about: pitching
    text: 'Paik swings early. First pitch off the plate.'
    for: [staff]

bullpen:
{bullpen}
"""

PAST_SERIES = """\
title: Slatefield State at home
opponent: slatefield
start: 2026-03-13
end: 2026-03-15
where: home

probables:
  - {game: Friday, date: 2026-03-13, pitcher: 18}
  - {game: Saturday, date: 2026-03-14, pitcher: 30}
  - {game: Sunday, date: 2026-03-15, pitcher: Nils Abernathy-Roy}

catcher: 5
plan:
  - Shorten the secondary lead on takes, their catcher throws behind.
  - Hit-and-run behind the breaking infielder.
"""
