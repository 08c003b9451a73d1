"""Routes of accounts."""

from django.urls import path

from api.accounts import joining, views

urlpatterns = [
    path("accounts/sign-up", views.SignUp.as_view(), name="sign-up"),
    path("accounts/sign-in", views.SignIn.as_view(), name="sign-in"),
    path("accounts/sign-out", views.SignOut.as_view(), name="sign-out"),
    path("accounts/sign-out-everywhere", views.SignOutEverywhere.as_view(), name="sign-out-everywhere"),
    path("accounts/password", views.Password.as_view(), name="password"),
    path("accounts/sign-ins", views.SignIns.as_view(), name="sign-ins"),
    path("accounts/me", views.Me.as_view(), name="me"),
    path("accounts/join", joining.Join.as_view(), name="join"),
    path("accounts/invitation", joining.SeeInvitation.as_view(), name="invitation"),
]
