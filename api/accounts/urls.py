"""Routes of accounts."""

from django.urls import path

from api.accounts import views

urlpatterns = [
    path("accounts/sign-up", views.SignUp.as_view(), name="sign-up"),
    path("accounts/sign-in", views.SignIn.as_view(), name="sign-in"),
    path("accounts/sign-out", views.SignOut.as_view(), name="sign-out"),
    path("accounts/me", views.Me.as_view(), name="me"),
    path("accounts/join", views.Join.as_view(), name="join"),
    path("invitations/<str:token>", views.SeeInvitation.as_view(), name="invitation"),
]
