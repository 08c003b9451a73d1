"""Faults in who may see and do what: isolation, membership, devices, doors (P10, S13, S21, S22)."""

from tests.plants.fault import Planted, by

_ACCESS = "lawn/book/people/access.py"
_MEMBERSHIP = "lawn/book/people/membership.py"
_REFUSALS = "tests/sync/test_s09_refusals.py"
_DEVICES = "tests/api/people/test_devices.py"
_CALENDAR = "tests/api/calendar/test_calendar.py"
_MEMBERS = "tests/api/people/test_members.py"

PLANTS = (
    Planted(
        "household_filter_dropped",
        "Rows are found whatever household they belong to.",
        _ACCESS,
        "return model._default_manager.filter(**{key: household_id})",
        "return model._default_manager.exclude(**{key: None})",
        by(_REFUSALS, "test_p10_s13_two_households_may_hold_the_same_ids_and_see_only_their_own"),
    ),
    Planted(
        "removed_member_pulls",
        "A removed member goes on reading the book.",
        _ACCESS,
        "filter(person_id=person.id, active=True).first()",
        "filter(person_id=person.id).first()",
        by(_REFUSALS, "test_p10_a_member_no_longer_active_is_404"),
    ),
    Planted(
        "anybodys_device",
        "A member writes under another member's device.",
        _ACCESS,
        "filter(id=device_id, member_id=member.id, closed_at=None)",
        "filter(id=device_id, closed_at=None)",
        by(_REFUSALS, "test_p10_a_device_must_be_the_callers_own_in_that_household"),
    ),
    Planted(
        "closed_device_sends",
        "A phone that was signed out sends on under its old id.",
        _ACCESS,
        "member_id=member.id, closed_at=None)",
        "member_id=member.id)",
        by(_DEVICES, "test_s21_a_signed_out_phone_begins_anew_after_signing_in"),
    ),
    Planted(
        "session_outlives_sign_out",
        "Signing out a lost phone leaves its session open.",
        "lawn/book/people/devices.py",
        "            sessions.end(device.session)\n",
        "",
        by(_DEVICES, "test_s21_a_lost_phone_is_signed_out_from_another_one"),
    ),
    Planted(
        "last_keeper_goes",
        "The last keeper may leave, and nobody can invite or remove any more.",
        _MEMBERSHIP,
        "        raise LastKeeper\n",
        "        return\n",
        by(_MEMBERS, "test_the_last_keeper_stays"),
    ),
    Planted(
        "invitation_used_twice",
        "Using an invitation is not written down, so the link lets anyone in for a week.",
        _MEMBERSHIP,
        "if not still.update(used_at=now.astimezone(UTC), used_by=member.id):",
        "if not still.exists():",
        by("tests/domain/test_membership.py", "test_an_invitation_lets_one_person_in_once"),
    ),
    Planted(
        "invitations_outlive_the_keeper",
        "A removed keeper comes back by an invitation of their own.",
        _MEMBERSHIP,
        "_open(member.household_id).filter(made_by=member.id).update(withdrawn_at=now)",
        "_open(member.household_id)",
        by(_MEMBERS, "test_f48_a_removed_keeper_cannot_come_back_by_an_invitation_of_their_own"),
    ),
    Planted(
        "powers_come_back",
        "Who is invited again gets the former powers back.",
        _MEMBERSHIP,
        '{"active": {"active": True}, "role": {"role": role}}, known.id, now)',
        '{"active": {"active": True}}, known.id, now)',
        by(_MEMBERS, "test_f49_removed_and_invited_again_is_the_same_place_without_its_powers"),
    ),
    Planted(
        "anyone_settles_what_is_held",
        "A member who is no keeper accepts and declines what is held.",
        "lawn/book/sync/pending_review.py",
        "if not member.is_keeper:",
        "if not member.active:",
        by("tests/api/people/test_pending_review.py", "test_s22_only_a_keeper_sees_and_settles_what_is_held"),
    ),
    Planted(
        "throttle_off",
        "Passwords may be tried without end.",
        "api/accounts/throttles.py",
        "return self._wait_s == 0.0",
        "return self._wait_s >= 0.0",
        by("tests/api/people/test_throttles.py", "test_one_address_is_held_back_whatever_emails_it_tries"),
    ),
    Planted(
        "former_member_keeps_the_calendar",
        "A removed member's calendar goes on reading the plan.",
        _ACCESS,
        "filter(id=link.member_id, active=True)",
        "filter(id=link.member_id)",
        by(_CALENDAR, "test_p10_a_link_ends_with_its_membership_however_that_ended"),
    ),
    Planted(
        "calendar_link_comes_back",
        "Who is invited again has their old calendar link again.",
        _MEMBERSHIP,
        "access.rows(CalendarLink, member.household_id).filter(member_id=member.id).delete()",
        "access.rows(CalendarLink, member.household_id).filter(member_id=actor.id).delete()",
        by(_CALENDAR, "test_a_removed_member_s_link_ends_and_does_not_come_back_with_them"),
    ),
    Planted(
        "last_day_left_out",
        "A step's last day is missing in the calendar.",
        "lawn/book/calendar/ics.py",
        "job.last + timedelta(days=1)",
        "job.last",
        by(_CALENDAR, "test_whoever_has_the_link_reads_the_steps_over_their_days_and_gets_no_cookie"),
    ),
    Planted(
        "renamed_zone_unsaid",
        "A calendar is not told that a zone of a step was renamed.",
        "lawn/book/calendar/steps.py",
        "sequence=max(book.numbers.get(row.id, 0) for row in told)",
        "sequence=book.numbers.get(step.id, 0)",
        by(_CALENDAR, "test_a_zone_renamed_is_a_later_telling_of_the_step"),
    ),
)
