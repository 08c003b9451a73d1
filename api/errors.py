"""One error shape for the whole API: {code, message, fields?}."""

from typing import Any

from django.core.exceptions import PermissionDenied
from django.db import InterfaceError, OperationalError
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from rest_framework import exceptions, status
from rest_framework.response import Response
from rest_framework.views import exception_handler

from lawn.web import hashing

MESSAGES = {
    "signed_out": "Sign in to go on.",
    "not_found": "There is nothing here that you can see.",
    "not_allowed": "Your part in this household does not allow that.",
    "invalid": "Some of what was sent cannot be used.",
    "malformed": "What was sent could not be read.",
    "crowded": "Many passwords are being tried at this moment. Wait a few seconds and try again.",
    "busy": "The server is busy. What was entered is safe on the phone and is sent again by itself.",
}


class Refusal(exceptions.APIException):
    """A refusal with its own status and code; `fields` names what is wrong field by field."""

    def __init__(
        self, status_code: int, code: str, message: str, fields: dict[str, str] | None = None, wait_s: int | None = None
    ) -> None:
        """Refuse; `wait_s` becomes Retry-After."""
        super().__init__(detail=message, code=code)
        self.wait = wait_s
        self.status_code = status_code
        self.code = code
        self.message = message
        self.fields = fields


def problem(code: str, message: str | None = None, fields: dict[str, str] | None = None) -> dict[str, Any]:
    """Return the error body."""
    body: dict[str, Any] = {"code": code, "message": message or MESSAGES.get(code, "That did not work.")}
    if fields:
        body["fields"] = fields
    return body


def _first_messages(detail: Any, path: str = "") -> dict[str, str]:
    """Flatten a serializer's errors to {field: first message}; nested fields are joined by dots."""
    if isinstance(detail, dict):
        found: dict[str, str] = {}
        for name, inner in detail.items():
            found.update(_first_messages(inner, f"{path}.{name}" if path else str(name)))
        return found
    if isinstance(detail, list):
        if any(isinstance(item, dict | list) for item in detail):
            found = {}
            for number, item in enumerate(detail):
                found.update(_first_messages(item, f"{path}.{number}" if path else str(number)))
            return found
        return {path: " ".join(str(item) for item in detail)} if detail else {}
    return {path: str(detail)}


def _body_of(error: exceptions.APIException) -> dict[str, Any]:
    if isinstance(error, Refusal):
        return problem(error.code, error.message, error.fields)
    if isinstance(error, exceptions.ValidationError):
        fields = _first_messages(error.detail)
        general = fields.pop("non_field_errors", None) or fields.pop("", None)
        return problem("invalid", general, fields)
    if isinstance(error, exceptions.NotAuthenticated | exceptions.AuthenticationFailed):
        return problem("signed_out")
    if isinstance(error, exceptions.ParseError):
        return problem("malformed", str(error.detail))
    if isinstance(error, exceptions.PermissionDenied):
        return problem("not_allowed", str(error.detail))
    if isinstance(error, exceptions.NotFound):
        return problem("not_found")
    codes = error.get_codes()
    return problem(codes if isinstance(codes, str) else "refused", str(error.detail))


def handler(error: Exception, context: dict[str, Any]) -> Response | None:
    """Answer an exception in the one shape; None (a plain 500) for what nobody foresaw."""
    if isinstance(error, Http404):
        error = exceptions.NotFound()
    elif isinstance(error, PermissionDenied):
        error = exceptions.PermissionDenied()
    if isinstance(error, OperationalError | InterfaceError):
        # locked, gone or full: never a verdict on what was sent, always "later" (S9)
        return Response(problem("busy"), status=503, headers={"Retry-After": "5"})
    if isinstance(error, hashing.Crowded):
        return Response(problem("crowded"), status=503, headers={"Retry-After": str(hashing.RETRY_AFTER_S)})
    response = exception_handler(error, context)
    if response is None or not isinstance(error, exceptions.APIException):
        return response
    if isinstance(error, exceptions.NotAuthenticated | exceptions.AuthenticationFailed):
        response.status_code = status.HTTP_401_UNAUTHORIZED
    response.data = _body_of(error)
    return response


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Answer a request that is wrong before any view sees it, such as one for a host we are not."""
    message = "This request cannot be answered: its host, address or headers are not ones this server takes."
    if request.path.startswith("/api/"):
        return JsonResponse(problem("refused", message), status=400)
    return HttpResponse(message, content_type="text/plain; charset=utf-8", status=400)
