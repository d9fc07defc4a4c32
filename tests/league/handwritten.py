"""The pages our staff wrote by hand."""

PAGES: dict[str, str] = {
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

Read what you need on the bus or at the hotel. Phones stay in the clubhouse from batting practice until the last out; the cards
are on paper.
""",
    "pages/how-we-chart.md": """\
# How we chart

Three of us chart: AJR and TMW from video, DSK at our own games.

- **Time to the plate**: first move that commits him, to the mitt. By watch unless the video is good enough to count frames.
- **Return throw**: out of the catcher's hand to the pitcher's glove.
- **Looks**: every turn of the head to the runner on second after he comes set.
- **Third baseman's feet**: from the bag to his feet when the pitch crosses the plate, by the cutouts in the grass.
- Warm-up throws are marked. They do not count with the game's.

Write down only what you saw. A blank cell says that nobody looked; that is worth knowing too.
""",
}
