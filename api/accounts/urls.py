urlpatterns: list[object] = []
