"""Addresses of joints and torque marks."""

from django.urls import URLPattern, path

from builds.views import joints

urlpatterns: list[URLPattern] = [
    path("cars/<int:pk>/joints/", joints.joint_list, name="joint_list"),
    path("cars/<int:pk>/joints/add/", joints.joint_add, name="joint_add"),
    path("joints/<int:pk>/", joints.joint_edit, name="joint_edit"),
    path("joints/<int:pk>/mark/", joints.joint_mark, name="joint_mark"),
    path("joints/<int:pk>/sign/", joints.joint_sign, name="joint_sign"),
    path("joints/<int:pk>/retire/", joints.joint_retire, name="joint_retire"),
]
