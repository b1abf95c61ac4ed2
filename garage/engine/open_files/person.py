"""What of a person is his own and goes when he is erased; what he did stays, by somebody who left."""

from garage.engine.backup import left_out

NOBODY = "Somebody who left"

# By table, the column that says whose a row is: it tells of him alone, and goes.
GOES = {
    "garage_membership_skills": "membership_id",
    "garage_membership_cars": "membership_id",
    "garage_membership_donors": "membership_id",
    "garage_memberhours": "member_id",
    "garage_dayhours": "member_id",
    "garage_visitlink": "member_id",
    "builds_calendarfeed": "member_id",
    "builds_newswish": "member_id",
}
# Rows that would go with a membership, and stay since others rest on them, each with why.
STAYS = {
    "garage_event_people": "who was at an event",
    "builds_span_crew": "whose hands were on a job, and so who may not sign it",
    "builds_skillloan": "that a job was worked on without the skill, and who allowed it",
}
# Of a person himself; they go with him.
WITH_PERSON = ("garage_signinlink", "garage_receipt", "garage_device")

# What is given out to him leaves out what tells nothing of him, or opens a door.
NOT_GIVEN = {
    *left_out.LEFT_OUT,
    *("garage_receipt", "builds_plan", "builds_search", "builds_calendartold"),
}
# Rows that are his by way of another row of his.
BY_WAY_OF = {"garage_visit": "link__member"}
