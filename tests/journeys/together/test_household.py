"""A household's people and phones: inviting, roles, removal, what is held, a lost phone."""

import re
from collections.abc import Callable

from tests.journeys import acts, demo
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server

MakePhone = Callable[[], Phone]


def keeper_and_member(new_phone: MakePhone, book: Book) -> tuple[Phone, Phone]:
    """The keeper's phone, and the phone of somebody who has just joined by a link."""
    keeper, member = new_phone(), new_phone()
    acts.signed_in(keeper, book.email)
    acts.join(member, acts.invite(keeper), "Second Keeper")
    acts.wait_installed(member)
    return keeper, member


def open_member(phone: Phone, name: str) -> None:
    """That member's own page, once this phone knows of them."""
    phone.open("/household")
    phone.tap("link", re.compile("^" + name))
    phone.see_role("heading", name)


def remove_second(keeper: Phone) -> None:
    """Remove the second member, having read what it means."""
    open_member(keeper, "Second Keeper")
    keeper.tap("button", "Remove Second Keeper")
    keeper.see("What they have entered but not sent is held")
    keeper.tap("button", "Remove")
    keeper.see("Second Keeper is removed.")


def mow_without_signal(phone: Phone, server: Server, times: int = 1) -> None:
    """Note mows while nothing answers, and put the phone away before signal is back."""
    phone.open("/")
    phone.see("Not mowed yet")
    acts.all_saved(phone)
    server.stop()
    phone.tap("button", "Mowed the whole yard")
    phone.see("Whole yard: mow logged.")
    for more in range(1, times):
        acts.wait_waiting(phone, more)
        phone.tap("button", "Mowed again: Verge")
    acts.wait_waiting(phone, times)
    phone.put_away()
    server.start()


def test_f48_s22_what_a_removed_member_had_not_sent_is_held_until_the_keeper_accepts_it(
    new_phone: MakePhone, server: Server, book: Book
) -> None:
    book.zone("Verge")
    keeper, member = keeper_and_member(new_phone, book)
    mow_without_signal(member, server, 5)
    remove_second(keeper)

    # Their phone: the book is there, told apart, and says where the entries are.
    member.open("/household")
    member.see("You are no longer in this household")
    member.see("5 entries are with the keeper to review.")
    acts.wait_waiting(member, 0)
    assert member.axe() + member.layout_faults() == []
    acts.place(member, "Ground")
    member.see("Verge")
    member.see_role("link", "No longer a member")

    keeper.open("/household")
    keeper.tap("link", re.compile("^Entries to review"))
    keeper.see("Second Keeper, written")
    assert keeper.axe() + keeper.layout_faults() == []
    keeper.tap("button", re.compile("^Accept Mow"), nth=0)
    keeper.tap("button", "Accept all 4")
    keeper.see("Nothing to review")
    acts.all_saved(keeper)
    assert len({entry["id"] for entry in book.entries()}) == len(book.entries()) == 5
    acts.place(keeper, "Log")
    keeper.wait(lambda: keeper.count("link", re.compile("Mow")) == 5, "not five mows in the log")


def test_f49_a_removed_member_invited_again_goes_on_with_the_same_book(
    new_phone: MakePhone, server: Server, book: Book
) -> None:
    book.zone("Verge")
    keeper, member = keeper_and_member(new_phone, book)
    mow_without_signal(member, server)
    remove_second(keeper)
    member.open("/household")
    member.see("1 entry is with the keeper to review.")

    member.goto(acts.invite(keeper))
    member.tap("button", "Join")
    member.see_role("heading", "Today")
    acts.place(member, "Ground")
    member.gone("No longer a member")
    member.open("/household/entries")
    member.tap("button", re.compile("^Send again: Mow"))
    member.gone("Needs fixing (1)")
    acts.place(member, "Today")
    acts.all_saved(member)
    keeper.open("/log")
    keeper.see_role("link", re.compile("Mow"))


def test_s22_the_last_keeper_stays_and_a_second_keeper_may_go_back_to_member(new_phone: MakePhone, book: Book) -> None:
    keeper, _member = keeper_and_member(new_phone, book)
    open_member(keeper, "First Keeper")
    keeper.choose("What First Keeper may do", "Member")
    keeper.see("A household keeps one keeper at least.")
    keeper.tap("button", "Leave the household")
    keeper.tap("button", "Leave")
    keeper.see("A household keeps one keeper at least.")
    keeper.tap("button", "Stay")

    open_member(keeper, "Second Keeper")
    keeper.choose("What Second Keeper may do", "Keeper")
    keeper.see("Second Keeper is keeper now.")
    keeper.see("Keeper: invites, removes, names the household")
    assert keeper.axe() + keeper.layout_faults() == []
    keeper.choose("What Second Keeper may do", "Member")
    keeper.see("Second Keeper is member now.")


def test_members_phones_and_invitations_say_that_they_need_signal(
    new_phone: MakePhone, server: Server, book: Book
) -> None:
    keeper, _member = keeper_and_member(new_phone, book)
    open_member(keeper, "Second Keeper")
    acts.wait_installed(keeper)
    server.stop()
    keeper.choose("What Second Keeper may do", "Keeper")
    keeper.see("this needs signal")
    keeper.open("/household")
    keeper.see("You need a signal to see open invitations.")
    keeper.gone("This list is not here")
    assert keeper.axe() + keeper.layout_faults() == []
    keeper.open("/household/phones")
    keeper.see("You need a signal to see the phones.")
    assert keeper.axe() + keeper.layout_faults() == []
    server.start()
    keeper.tap("button", "Try again")
    keeper.see("this phone")


def test_an_invitation_is_listed_and_withdrawn_and_then_opens_nothing(new_phone: MakePhone, book: Book) -> None:
    keeper, stranger = new_phone(), new_phone()
    acts.sign_in(keeper, book.email)
    link = acts.invite(keeper)
    keeper.see("For one person, until")
    keeper.tap("button", re.compile("^Withdraw the invitation"))
    keeper.see("No invitation is open.")
    assert not keeper.sees_role("button", "Copy the link")
    stranger.goto(link)
    stranger.see("This invitation can’t be used now")


def test_s21_a_lost_phone_signed_out_from_afar_keeps_its_book_and_sends_after_the_next_sign_in(
    new_phone: MakePhone, server: Server, book: Book
) -> None:
    book.zone("Verge")
    keeper, member = keeper_and_member(new_phone, book)
    mow_without_signal(member, server)
    keeper.open("/household/phones")
    keeper.see("this phone")
    assert keeper.axe() + keeper.layout_faults() == []
    keeper.tap("button", re.compile("^Sign out .* of Second Keeper$"))
    keeper.see("Its data stays on it")
    keeper.tap("button", "Sign it out")
    keeper.see(re.compile("of Second Keeper is signed out"))

    member.open("/")
    member.see_role("link", "Sign in to send 1")
    assert acts.waiting(member) == 1
    member.see_role("button", "Mowed again: Verge")
    sign_in_again(member, acts.PASSWORD)
    acts.all_saved(member)
    keeper.open("/log")
    keeper.see_role("link", re.compile("Mow"))


def sign_in_again(phone: Phone, password: str) -> None:
    """Follow the line that says what waits for a sign-in."""
    phone.tap("link", "Sign in to send 1")
    phone.tap("link", "Sign in again")
    phone.fill("Password", password)
    phone.tap("button", "Sign in")
    phone.see_role("heading", "Today")


def test_s21_a_new_password_and_signing_out_everywhere_keep_what_waits_on_other_phones(
    new_phone: MakePhone, server: Server, book: Book
) -> None:
    book.zone("Verge")
    here, there = new_phone(), new_phone()
    for phone in (here, there):
        acts.sign_in(phone, book.email)
    mow_without_signal(there, server)

    here.open("/household/sign-ins")
    here.tap("button", "Change password")
    here.fill("Current password", "not the one")
    here.fill("New password", "five more plain garden words")
    assert here.axe() + here.layout_faults() == []
    here.tap("button", "Save the password")
    here.see_complaint("Current password", re.compile("."))
    here.fill("Current password", acts.PASSWORD)
    here.tap("button", "Save the password")
    here.see("Password changed.")

    there.open("/")
    sign_in_again(there, "five more plain garden words")
    acts.all_saved(there)

    here.tap("button", "Sign out everywhere")
    here.tap("button", "Sign out everywhere", inside=("dialog", "Sign out everywhere?"))
    here.wait(lambda: here.path() == "/enter", "not at the door")
    there.tap("button", "Mowed again: Verge")
    there.see_role("link", "Sign in to send 1")
    assert acts.waiting(there) == 1


def test_f17_signing_in_again_after_the_time_ran_out_is_a_quiet_line_and_everything_is_usable(
    phone: Phone, server: Server, book: Book
) -> None:
    book.zone("Verge")
    acts.sign_in(phone, book.email)
    phone.see("Not mowed yet")
    acts.all_saved(phone)
    book.post("accounts/sign-out-everywhere", {})
    phone.tap("button", "Mowed the whole yard")
    phone.see("Whole yard: mow logged.")
    phone.see_role("link", "Sign in to send 1")
    acts.place(phone, "Log")
    phone.see_role("link", re.compile("Mow"))
    assert acts.waiting(phone) == 1


def test_own_sign_ins_are_listed(phone: Phone, book: Book) -> None:
    acts.sign_in(phone, book.email)
    demo.go(phone, "/household/sign-ins")
    phone.see("signed in")
    assert phone.axe() + phone.layout_faults() == []
