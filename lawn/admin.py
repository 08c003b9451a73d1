"""The operator's admin: who is there, which households, what was parked and what lost, who tried to sign in.

It is off unless EVENFALL_ADMIN names a path for it. Its own sign-in is counted and written down like the app's
(`api.accounts.operator`).

Django's admin cannot edit rows whose key is made of two columns (members, phones, parked ops, conflicts), so a
household's page lists them to read. Records of the book are changed by phones only: a change here would pass the
counter by, and no phone would hear of it.
"""

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any

from django.contrib import admin
from django.contrib.auth.admin import UserAdmin
from django.db.models import Model, QuerySet
from django.http import HttpRequest
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from lawn.book.people import access
from lawn.models import Conflict, Device, Household, Invitation, Member, ParkedOp, Person, SignIn

if TYPE_CHECKING:  # generic in the stubs only
    _PersonBase = UserAdmin[Person]
    _RowBase = admin.ModelAdmin[Any]
else:
    _PersonBase = UserAdmin
    _RowBase = admin.ModelAdmin

_MOST_ROWS = 100


@admin.register(Person)
class PersonAdmin(_PersonBase):
    """People, who sign in by email."""

    ordering = ("email",)
    list_display = ("email", "name", "is_active", "is_staff", "joined_at")
    search_fields = ("email", "name")
    readonly_fields = ("joined_at", "last_login")
    fieldsets = (
        (None, {"fields": ("email", "name", "password")}),
        ("May", {"fields": ("is_active", "is_staff", "is_superuser")}),
        ("When", {"fields": ("joined_at", "last_login")}),
    )
    add_fieldsets = ((None, {"fields": ("email", "name", "password1", "password2")}),)
    list_filter = ("is_active", "is_staff")
    filter_horizontal = ()


def _table(names: tuple[str, ...], rows: Iterable[Model]) -> SafeString:
    """Return a plain table of some columns of some rows."""
    head = format_html_join("", "<th>{}</th>", ((name.replace("_", " "),) for name in names))
    body = format_html_join("", "<tr>{}</tr>", ((_cells(names, row),) for row in rows))
    return format_html("<table><thead><tr>{}</tr></thead><tbody>{}</tbody></table>", head, body)


def _cells(names: tuple[str, ...], row: Model) -> SafeString:
    return format_html_join("", "<td>{}</td>", ((getattr(row, name),) for name in names))


def _listing(title: str, model: type[Model], names: tuple[str, ...]) -> Callable[[Any, Household], SafeString]:
    """Return an admin field that lists a household's newest rows of a model."""

    @admin.display(description=title)
    def show(self: Any, household: Household) -> SafeString:
        rows = access.rows(model, household.id).order_by("-id")[:_MOST_ROWS]
        return _table(names, rows)

    return show


class ReadOnly(_RowBase):
    """Rows to look at: nothing here adds, changes or deletes."""

    def has_add_permission(self, request: HttpRequest) -> bool:
        """Say no."""
        return False

    def has_change_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        """Say no."""
        return False

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        """Say no."""
        return False


@admin.register(Household)
class HouseholdAdmin(ReadOnly):
    """A household with all that the operator may have to look at."""

    list_display = ("name", "id", "seq", "received_at")
    search_fields = ("name", "id")
    fields = ("name", "id", "seq", "epoch", "received_at", "members", "devices", "parked", "conflicts")
    readonly_fields = fields

    members = _listing("Members", Member, ("id", "name", "role", "active", "units"))
    devices = _listing("Phones", Device, ("id", "member_id", "name", "created_at", "last_seen_at", "closed_at"))
    parked = _listing("Parked entries", ParkedOp, ("received_at", "op", "member_id", "why", "settled_as", "raw"))
    conflicts = _listing("Conflicts", Conflict, ("at", "t", "record_id", "group", "lost", "won"))


@admin.register(Invitation)
class InvitationAdmin(ReadOnly):
    """Invitations; one that should not have been made can be deleted."""

    list_display = ("household", "created_at", "expires_at", "used_at", "withdrawn_at")
    list_filter = ("expires_at",)
    fields = ("household", "made_by", "created_at", "expires_at", "used_at", "used_by", "withdrawn_at")
    readonly_fields = fields

    def get_queryset(self, request: HttpRequest) -> QuerySet[Any]:
        """Read each household's name along with its invitation."""
        return super().get_queryset(request).select_related("household")

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        """Say yes to whoever Django's own permissions allow."""
        return admin.ModelAdmin.has_delete_permission(self, request, obj)


@admin.register(SignIn)
class SignInAdmin(ReadOnly):
    """Who tried to sign in, from which network, and whether the door opened."""

    list_display = ("at", "ok", "person", "address_part", "agent_part")
    list_filter = ("ok", "at")
    search_fields = ("person__email", "address_part")
    list_select_related = ("person",)
    fields = readonly_fields = list_display
