"""Addresses of joints and torque marks."""

from django.urls import URLPattern, path

from builds.joints import views

urlpatterns: list[URLPattern] = [
    path("cars/<int:pk>/joints/", views.joint_list, name="joint_list"),
    path("cars/<int:pk>/joints/add/", views.joint_add, name="joint_add"),
    path("cars/<int:pk>/joints/torqued/", views.joint_mark_many, name="joint_mark_many"),
    path("cars/<int:pk>/joints/looked-at/", views.joint_sign_many, name="joint_sign_many"),
    path("joints/<int:pk>/", views.joint_edit, name="joint_edit"),
    path("joints/<int:pk>/mark/", views.joint_mark, name="joint_mark"),
    path("joints/<int:pk>/sign/", views.joint_sign, name="joint_sign"),
    path("joints/<int:pk>/retire/", views.joint_retire, name="joint_retire"),
]
