"""Toe setting: from what was read to turns of each tie rod, split about the thrust line."""

from builds.bench.alignment.toe import about_thrust, thrust_angle
from builds.bench.alignment.toe_drawing import toe_drawing
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, Texts, Worked

LONGER, SHORTER = "longer", "shorter"
EIGHTHS = (
    "an eighth of a turn",
    "a quarter turn",
    "three eighths of a turn",
    "half a turn",
    "five eighths of a turn",
    "three quarters of a turn",
    "seven eighths of a turn",
    "one turn",
)


def turns_said(turns: float) -> str:
    """Turns to the nearest eighth, in words: `a quarter turn longer`, `leave it`."""
    eighths = round(abs(turns) * 8)
    if eighths == 0:
        return "leave it"
    way = LONGER if turns > 0 else SHORTER
    return f"{EIGHTHS[eighths - 1] if eighths <= len(EIGHTHS) else f'{eighths / 8:g} turns'} {way}"


def _work(given: Given, texts: Texts) -> Worked:
    thrust = thrust_angle(given["rear_left"], given["rear_right"])
    now = about_thrust(given["left"], given["right"], thrust)
    want = given["target"] / 2
    sign = 1 if texts["in_by"] == LONGER else -1
    turns = [sign * (want - toe) / given["per_turn"] for toe in now]
    answers = (
        Answer("thrust", "Thrust line, to the right", thrust, "°", 3),
        Answer("left_now", "Left about the thrust line, now", now[0], "°", 3),
        Answer("right_now", "Right about the thrust line, now", now[1], "°", 3),
        Answer("left", "Left tie rod, turns, longer above 0", turns[0], "", 2, words=turns_said(turns[0])),
        Answer("right", "Right tie rod, turns, longer above 0", turns[1], "", 2, words=turns_said(turns[1])),
        Answer(
            "wheel",
            "Driving straight with the front as it is, the steering wheel stands to the right by",
            (now[1] - now[0]) / 2 * given["ratio"],
            "°",
            1,
        ),
    )
    return Worked(answers, toe_drawing("Front toe now", (("Front", given["left"], given["right"]),)))


SUM = Sum(
    slug="toe-setting",
    title="Toe setting",
    question="How far is each tie rod to be turned?",
    asks=(
        *(
            Ask(slug, f"{name}, as read", "°", example, least=-10, most=10, reading=reading)
            for slug, name, example, reading in (
                ("left", "Front left", "0.05", "toe_front.fl"),
                ("right", "Front right", "0.15", "toe_front.fr"),
                ("rear_left", "Rear left", "0.2", "toe_rear.rl"),
                ("rear_right", "Rear right", "0.05", "toe_rear.rr"),
            )
        ),
        Ask("target", "Front toe wanted, both together", "°", "0.1", least=-10, most=10),
        Ask("per_turn", "A turn of the tie rod moves", "°", "0.69", above=0, most=10, figure="toe_per_turn"),
        Ask(
            "in_by",
            "Toe goes in as the tie rod gets",
            choices=((LONGER, "Longer, arms behind the axle"), (SHORTER, "Shorter, arms before the axle")),
            default=LONGER,
        ),
        Ask("ratio", "Steering ratio, to one", "", "15", above=0, most=40, default="15", figure="steering_ratio"),
    ),
    work=_work,
    formula=(
        "each wheel to target / 2 about the thrust line",
        "turns = (wanted − now) / degrees a turn; left now = left − thrust, right now = right + thrust",
    ),
    source="ISO 8855:2011 7.1.6 and 7.1.7; what a turn moves is a sum of its own",
    assumes="Rear toe is set already, the rack centred and locked; toe-in above 0.",
    limits="Near straight ahead; turn, roll the car, and read again rather than trust the last eighth.",
    caution="Tighten the jam nuts, stripe them, see that rod ends are past their witness holes, then read toe again.",
    offered=Offered(
        readings=("toe_front", "jam_nuts"),
        kinds=("jam_nut",),
        systems=("steering",),
        checks=("left", "right"),
        again=True,
    ),
)
