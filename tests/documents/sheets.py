"""Invented sheets of the demo workshop, one of each paper, and drawings of known size."""

from dataclasses import replace
from typing import Any

from reelwright.documents.answers import Answer, AnswerKind, Answers, Figure
from reelwright.documents.bench_plan import BenchPlanSheet, BenchRow, PersonLoad
from reelwright.documents.cut_list import CutList, CutReel, CutRow
from reelwright.documents.expected_values import ExpectedLine, ExpectedRow, ExpectedValues
from reelwright.documents.labels import Label, LabelRoll, Labels
from reelwright.documents.pictures import photograph_svg
from reelwright.documents.set_up_sheet import (
    BladePrint,
    CautionRow,
    CrimpPrint,
    MeasuredRow,
    ModeRow,
    PhotographPrint,
    PointRow,
    PullProof,
    RevisionRow,
    SetUpPaper,
    TipPrint,
    Told,
)
from reelwright.documents.set_up_sheet import Figure as SetUpFigure
from reelwright.documents.sheet import SheetMark
from reelwright.documents.shortages import Shortage, Shortages
from reelwright.documents.strip_rows import StripRow
from reelwright.documents.summary import Fetch, LookFirst, SevenNumber, Summary
from reelwright.documents.traveller import (
    Die,
    PinRow,
    Traveller,
    TravellerEnd,
    Travellers,
)
from reelwright.drawings.check_bar import draw_check_bar
from tests.photographs import png

N = "\u202f"


def mark(code: str) -> SheetMark:
    """The foot of every sample sheet."""
    return SheetMark(workshop="Demo workshop", code=code, date="Tue 25 Nov 2025", revision="1")


def bar_svg(*, width_mm: float, height_mm: float = 20.0, fill: str = "#FF00FF") -> str:
    """A drawing that is one solid bar as wide as it says: its print can be measured."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width_mm}mm" height="{height_mm}mm" '
        f'viewBox="0 0 {width_mm} {height_mm}"><title>A bar of {width_mm} mm</title>'
        f'<rect x="0" y="0" width="{width_mm}" height="8" fill="{fill}"/>'
        f'<text x="1" y="15" font-family="Source Sans Pro" font-size="4">Ø 6.05 ± 0.10</text></svg>'
    )


def end(which: str, **changes: Any) -> TravellerEnd:
    """A crimped video end at set-up T-02."""
    base = TravellerEnd(
        which=which,
        connector="BNC-60",
        setup="T-02",
        revision="D",
        strip_svg=bar_svg(width_mm=50),
        strip_text="",
        strip_rows=(
            StripRow(letter="a", name="conductor", length="4.25 ±0.10", cut_at="4.25"),
            StripRow(letter="b", name="dielectric", length="4.60 ±0.10", cut_at="8.85"),
            StripRow(letter="c", name="braid", length="7.20 ±0.15", cut_at="16.05"),
        ),
        program="14",
        blade_set="PVC, set 2",
        dies=(Die(closes="pin", cavity="1.60"), Die(closes="ferrule", cavity="6.48")),
        expected_height="6.52 ± 0.05",
        minimum_pull=f"98{N}N",
        order_of_work=(
            "boot onto the cable",
            "ferrule onto the cable",
            "strip with program 14",
            "pin on, die 1.60; look through the hole",
            "body home until it clicks",
            "ferrule over the braid, die 6.48",
            "height, then the cap",
        ),
    )
    return replace(base, **changes)


def traveller(number: str = "T-0010", **changes: Any) -> Traveller:
    """The repeat for the broadcaster: one green cable, both ends alike."""
    base = Traveller(
        number=number,
        order="O-10",
        line="1",
        customer_number="17",
        due="Courier Tue 25 Nov, 16:00",
        quantity=1,
        cable="VID-60",
        colour="green",
        colour_letters="GN",
        sources=("R-115 · lot L2405 · rack B4",),
        wheel_setting=f"10.199{N}m",
        cut_length=f"10.177{N}m",
        cut_feet="33 ft 4 11/16 in",
        finished_length=f"10.160{N}m",
        finished_feet="33 ft 4 in",
        tolerance="−0 / +25 mm",
        ends=(end("A and B"),),
        pin_map=(
            PinRow(end_a="centre", conductor="conductor", end_b="centre"),
            PinRow(end_a="shell", conductor="screen", end_b="shell"),
        ),
        cautions=("Two boots on the cable before the first crimp.",),
        serials=("O-10-1-01",),
        label_text=("VIDEO 1",),
        first_article=("strip laid on drawing", "height", "pin seen in the hole", "pull on scrap"),
        sign_for=("Cut", "Terminate", "Inspect", "Test"),
    )
    return replace(base, **changes)


def rush() -> Traveller:
    """Two cables with different ends: the F end has its own program."""
    return traveller(
        "T-0009",
        order="O-09",
        quantity=2,
        colour="black",
        colour_letters="BK",
        ends=(
            end("A", strip_svg=bar_svg(width_mm=60, height_mm=28)),
            end(
                "B",
                connector="F-70",
                setup="T-11",
                revision="B",
                strip_svg=bar_svg(width_mm=63, height_mm=28.5),
            ),
        ),
        cautions=(
            "The F end is stripped by another program: its conductor is the pin, no nick.",
            "Two boots on the cable before the first crimp.",
        ),
        serials=("O-09-1-01", "O-09-1-02"),
    )


def travellers(*sheets: Traveller) -> Travellers:
    """The given travellers as one stack."""
    return Travellers(mark=mark("TR-1125"), travellers=sheets or (traveller(), rush()))


def labels(*, width_mm: float = 50.0, height_mm: float = 25.0) -> Labels:
    """Both ends of two cables, with a text too long for its place among them."""
    return Labels(
        code="LB-1125",
        roll=LabelRoll(width_mm=width_mm, height_mm=height_mm),
        labels=tuple(
            Label(
                serial=f"O-12-1-{n:02d}",
                end=which,
                lines=(text,),
                length=f"3.048{N}m",
                feet=f"10{N}ft",
            )
            for n, text in ((1, "Rack 1, input 1"), (2, "Rack 1, " + "far away " * 9))
            for which in "AB"
        ),
    )


def reel(code: str, n_cuts: int) -> CutReel:
    """A red reel with a flaw, ``n_cuts`` cuts and a remnant."""
    return CutReel(
        reel=code,
        location="rack B2",
        lot="L2391",
        cable="VID-60",
        colour="red",
        colour_letters="RD",
        remaining=f"41.0 ± 0.25{N}m",
        reel_svg=bar_svg(width_mm=160),
        cuts=tuple(
            CutRow(
                before="",
                first=n,
                pieces=f"{code}-P{n:02d}",
                ticks=("",),
                cut_length=f"3.060{N}m",
                cut_feet="10 ft 0 1/2 in",
                wheel_setting=f"3.066{N}m",
            )
            for n in range(1, n_cuts + 1)
        ),
        flaws=(f"at 12.3{N}m from the free end: skip 0.2{N}m",),
        remnant=f"1.1{N}m",
        remnant_action="Too short for any order of this colour: to the test bench",
        why="Twelve of one lot; a fourth does not fit before the flaw",
    )


def cut_list(*reels: CutReel) -> CutList:
    """A cut list of the given reels."""
    return CutList(
        mark=mark("CL-1125"),
        sentence="14 reels, 96 pieces, 0.7 % lost",
        lead="Proven: no plan loses less.",
        warnings=("O-12 gets two lots in rack 3: the shades differ.",),
        reels=reels or (reel("R-113", 5), reel("R-114", 3)),
    )


def bench_plan() -> BenchPlanSheet:
    """Two batches, one late; one person with too much to do."""
    rows = tuple(
        BenchRow(
            sequence=n,
            start="8:12",
            finish="9:03",
            batch="O-04, O-10, O-12",
            setup="T-02 D",
            pieces=38,
            change_over="" if n == 1 else "both dies: 14 min",
            person="Ana",
            due="today 16:00",
            late=n == 2,
        )
        for n in (1, 2)
    )
    return BenchPlanSheet(
        mark=mark("BP-1125"),
        sentence="Two set-ups, 14 minutes of change-over, one order late",
        lead="No sequence changes over in less.",
        day_svg=bar_svg(width_mm=170, height_mm=40),
        rows=rows,
        people=(
            PersonLoad(person="Ana", load_min=440, present_min=420, note="20 minutes over"),
            PersonLoad(person="Cy", load_min=116, present_min=450, note=""),
        ),
        late=("O-02 misses the courier of 16:00 by 20 minutes.",),
        beyond="The work runs until 17:10; the day ends at 16:30.",
    )


def expected_values() -> ExpectedValues:
    """One line with a spread that is known and one that is not."""
    return ExpectedValues(
        mark=mark("EX-1125"),
        sentence="What 96 cables should measure",
        lead="Predicted from data sheets and lots.",
        lines=(
            ExpectedLine(
                order="O-10",
                line="1",
                cable="VID-60",
                lot="L2405",
                length=f"10.160{N}m · 33 ft 4 in",
                ends="BNC-60 both ends",
                cables="O-10-1-01",
                verdict="Works, with 17.6 dB to spare",
                basis="At 20 °C (assumed). Two ends of 0.10 dB each.",
                rows=(
                    ExpectedRow(
                        name=f"loss at 742.5{N}MHz",
                        value=f"2.43{N}dB",
                        spread="± 0.07 dB",
                        limit=f"≤ 20{N}dB",
                        source="data sheet of VID-60",
                    ),
                    ExpectedRow(
                        name="loop resistance",
                        value=f"0.51{N}Ω",
                        spread="not known",
                        limit="",
                        source="gauge; screen from the data sheet",
                    ),
                ),
            ),
        ),
    )


def answers() -> Answers:
    """One of each kind."""
    base = Answer(
        order="O-01",
        line="1",
        customer="customer 11",
        kind=AnswerKind.REFUSED,
        asked="Need 450' of your standard video cable with BNCs for 3G.",
        reading=f"1 × 137.16{N}m of VID-70 black, for serial video 2.97{N}Gb/s",
        sentence=f"137{N}m of copper will not carry 2.97{N}Gb/s.",
        reasons=("Loss at 1485 MHz is 35.6 dB; the limit is 20 dB.",),
        figures=(Figure(name="loss", value=f"35.6{N}dB"), Figure(name="limit", value=f"20{N}dB")),
        offers=("Two runs of 68.6 m with a re-clocker between.",),
        questions=("Which rate exactly?",),
    )
    held = replace(
        base, order="O-04", kind=AnswerKind.HELD, sentence="Two orange now, or four in ten days?"
    )
    accepted = replace(
        base,
        order="O-10",
        kind=AnswerKind.ACCEPTED,
        sentence="Yes, 33 ft 4 in again.",
        reasons=(),
        offers=(),
        questions=(),
    )
    return Answers(
        mark=mark("AN-1125"),
        sentence="1 accepted, 1 held, 1 refused",
        lead="",
        answers=(base, held, accepted),
    )


def shortages() -> Shortages:
    """The orange that is not there."""
    return Shortages(
        mark=mark("SH-1125"),
        sentence="One thing is missing",
        lead="",
        shortages=(
            Shortage(
                item="VID-60",
                colour="orange OG",
                missing=f"12{N}m",
                have=f"18.6{N}m",
                orders=("O-04",),
                needed_by="Fri 28 Nov",
                arrives="in 10 days",
                advice="Offer black with orange boots for two of four",
            ),
        ),
    )


def summary(
    *, n_to_look_at: int = 3, sentence: str = "43 of 52 orders go to the benches."
) -> Summary:
    """The day; with many things to look at when asked."""
    names = ("to make", "reels", "lost", "change-over", "late", "missing", "worth")
    return Summary(
        mark=mark("SU-1125"),
        sentence=sentence,
        lead="The press is the bottleneck.",
        numbers=tuple(SevenNumber(name=name, value="96", note="") for name in names),
        look_first=tuple(
            LookFirst(
                level="caution",
                sentence="The 6.48 die nears its life and its pull drifts: change it before O-12.",
                where="bench plan",
            )
            for _ in range(n_to_look_at)
        ),
        day_svg=bar_svg(width_mm=170, height_mm=40),
        due_today=("O-09, 2 cables, packed 15:37",),
        fetch=(Fetch(place="B4", reels=("R-115", "R-116")),),
    )


def photograph(mark: str, caption: str, content: bytes, **told: Any) -> PhotographPrint:
    """One photograph of 160 × 120 pixels, upright unless told."""
    return PhotographPrint(
        mark=mark,
        caption=caption,
        photograph_svg=photograph_svg(
            content,
            title=caption,
            room_mm=(82.0, 62.0),
            **{"kind": "png", "width_px": 160, "height_px": 120, "turned": 1} | told,
        ),
    )


def set_up_sheet(**changes: Any) -> SetUpPaper:
    """Set-up T-02 at revision D, released, with one good and one bad photograph."""
    base = SetUpPaper(
        mark=replace(mark("T-02-1125"), revision="1"),
        code="T-02 rev D",
        cable="VID-60",
        connector="BNC-60",
        state="released",
        state_mark="good",
        released=True,
        lead="Video coax 6 mm; BNC plug for 6 mm coax.",
        block=(
            SetUpFigure(name="set-up", value="T-02"),
            SetUpFigure(name="revision", value="D"),
            SetUpFigure(name="drafted", value="17 Nov 2025, Ana"),
            SetUpFigure(name="approved", value="17 Nov 2025, Mara"),
        ),
        missing_for="",
        missing=(),
        strip_svg=bar_svg(width_mm=150, height_mm=50),
        strip_true_svg=bar_svg(width_mm=40, fill="#00FF00"),
        check_bar_svg=draw_check_bar(),
        strip_rows=(
            StripRow(letter="a", name="conductor", length="4.25 ±0.10", cut_at="4.25"),
            StripRow(letter="b", name="dielectric", length="4.60 ±0.10", cut_at="8.85"),
            StripRow(letter="c", name="braid", length="7.20 ±0.15", cut_at="16.05"),
        ),
        threaded_first="Slide boot and ferrule onto the cable.",
        steps=("Slide boot and ferrule onto the cable.", "Strip with the program.", "Press."),
        order_told="",
        operations=(),
        machines=(
            SetUpFigure(name="Stripper program", value="12"),
            SetUpFigure(name="Ferrule die", value=f"6.48{N}mm across flats"),
        ),
        section_svg=bar_svg(width_mm=80, height_mm=40, fill="#0000FF"),
        bend_told=(Told(mark="good", sentence="Bend it no tighter than 36.3 mm."),),
        body_told="Return loss of the body of BNC-60 alone: not computed.",
        blades=(
            BladePrint(
                name="dielectric",
                position=f"4.25{N}mm",
                closes=f"0.91 to 1.01{N}mm",
                best=f"1.03{N}mm",
                nick=f"under 0.01{N}%",
                uncut=f"0.04{N}%",
                mark="good",
            ),
        ),
        strip_told=(Told(mark="caution", sentence="The braid may be 0.1 mm short."),),
        crimps=(
            CrimpPrint(
                use="pin",
                cavity="P-1.60",
                width=f"1.60{N}mm",
                does=Told(mark="good", sentence="Grips at the loosest."),
                height=f"1.615 ± 0.01{N}mm",
                fits=f"1.615{N}mm −0.055/+0.011{N}mm",
                force=Told(mark="good", sentence="The pin asks for 1.4 kN, PR-1 has 29.0 kN."),
            ),
        ),
        tip=TipPrint(
            told=(Told(mark="caution", sentence="1.83 % of the pins land outside."),),
            window=f"5.45{N}mm to 5.79{N}mm",
            gauge=f"5.47{N}mm to 5.77{N}mm",
            missing="",
        ),
        weld=None,
        measured=(
            MeasuredRow(
                name="pin crimp",
                laid_down=f"1.615 ± 0.01{N}mm",
                count="8",
                mean=f"1.616{N}mm",
                spread=f"0.003{N}mm",
                outside="none",
                cpk="",
                cpk_least="",
                share="",
            ),
            MeasuredRow(
                name="a",
                laid_down=f"4.25 ± 0.10{N}mm",
                count="30",
                mean=f"4.254{N}mm",
                spread=f"0.021{N}mm",
                outside="none",
                cpk="1.52",
                cpk_least="1.17",
                share="4 in a million",
            ),
        ),
        measured_told=(Told(mark="good", sentence="The height laid down stays within."),),
        pulls=PullProof(
            mark="good",
            sentence=f"27 pulls show 188{N}N for 99{N}% of ends: at least 180{N}N is asked for.",
            more="",
            modes=(
                ModeRow(
                    name="braid pulled out of the ferrule",
                    count="27",
                    weakest=f"194.4{N}N",
                    mean=f"206.6{N}N",
                    spread=f"5.9{N}N",
                ),
            ),
            others=(),
            minimum="At least 180 N: retention of a crimped ferrule (common practice).",
        ),
        points=(
            PointRow(name="braid", good="every strand back", bad="one strand forward: a short"),
        ),
        points_source="Common practice.",
        cautions=(
            CautionRow(sentence="Both hands on the press.", rules="guards: ISO 13851"),
            CautionRow(sentence="The machine's own instructions come first.", rules=""),
        ),
        cautions_note="Rules are named from memory.",
        photographs=(
            photograph("good", "The braid lies back.", png()),
            photograph("bad", "A strand at the conductor.", png(150), width_px=150),
        ),
        revisions=(
            RevisionRow(letter="D", state="released", drafted="17 Nov 2025", approved="Mara"),
            RevisionRow(letter="C", state="withdrawn", drafted="10 Nov 2025", approved=""),
        ),
        moves=("2025-11-17: proven → released, Mara. Approved.",),
    )
    return replace(base, **changes)
