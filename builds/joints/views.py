"""Joints that carry a torque: the list of a car, written down, marked and signed."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.bench.offered import sums_for
from builds.joints import actions as joints
from builds.joints.forms.joints import JointForm, JointSignForm, MarkForm
from builds.joints.forms.many import ManyLooksForm, ManyMarksForm, joints_sent
from builds.joints.models import Joint
from builds.joints.pages.joint_page import joint_view
from builds.joints.pages.many import to_look_at, to_torque
from garage import clock
from garage.access import refuse_arranging, refuse_work_on, refuse_working
from garage.actions.refused import Refused
from garage.engine.words import listed_in_words
from garage.http import GarageRequest, back, editable, once, page, require, see, visible
from garage.models import Vehicle
from garage.refusals import refused_aloud, refused_at, say_refused
from garage.tap_key import tap_key


def _list(joint: Joint) -> str:
    return reverse("joint_list", args=[joint.vehicle_id])


@require_safe
def joint_list(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    context = {
        "vehicle": vehicle,
        "view": joint_view(vehicle, request.member, clock.now()),
        "sums": sums_for(readings=["joint_torque"]),
        "works": refuse_work_on(request.member, vehicle) is None,
        "arranges": refuse_arranging(request.member) is None,
    }
    return page(request, "builds/joints/joint_list.html", context, menu="cars")


@once
def joint_add(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    require(refuse_work_on(request.member, vehicle))
    form = JointForm(request.POST or None, units=vehicle.garage.units)
    if form.is_valid():
        with refused_at(form):
            joint = joints.add(vehicle, **form.cleaned_data)
            messages.success(request, f"{joint} is on the list: put its first mark on.")
            return see(_list(joint))
    context = {"vehicle": vehicle}
    return page(request, "builds/joints/joint_form.html", context, form=form, menu="cars")


@once
def joint_edit(request: GarageRequest, pk: int) -> HttpResponse:
    joint = editable(Joint, request.member, pk=pk, retired_at=None)
    form = JointForm(request.POST or None, units=request.member.garage.units, joint=joint)
    if form.is_valid():
        with refused_at(form):
            joints.change(joint, by=request.member, at=clock.now(), **form.cleaned_data)
            messages.success(request, f"{joint} is changed.")
            return see(_list(joint))
    context = {"vehicle": joint.vehicle, "joint": joint}
    return page(request, "builds/joints/joint_form.html", context, form=form, menu="cars")


@require_POST
@once
def joint_retire(request: GarageRequest, pk: int) -> HttpResponse:
    joint = editable(Joint, request.member, pk=pk, retired_at=None)
    require(refuse_arranging(request.member))
    with refused_aloud(request):
        joints.retire(joint, at=clock.now())
        messages.success(request, f"{joint} is off the list.")
    return see(_list(joint))


@once
def joint_mark(request: GarageRequest, pk: int) -> HttpResponse:
    joint = editable(Joint, request.member, pk=pk, retired_at=None)
    form = MarkForm(request.POST or None, units=request.member.garage.units, joint=joint)
    if form.is_valid():
        try:
            joints.mark(
                joint,
                by=request.member,
                at=clock.now(),
                key=tap_key(request),
                typed=form.typed,
                **form.cleaned_data,
            )
        except Refused as refused:
            meanwhile = refused.field == "after"
            form.add_error(None if meanwhile else refused.field or None, str(refused))
            if meanwhile:
                form.look_again()
        else:
            messages.success(request, f"{joint} is marked.")
            return see(_list(joint))
    return page(request, "builds/joints/joint_mark.html", {"joint": joint}, form=form, menu="cars")


@once
def joint_mark_many(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle, at = visible(Vehicle, request.member, pk=pk), clock.now()
    require(refuse_work_on(request.member, vehicle))
    sent = request.POST if request.method == "POST" else None
    joints_there = to_torque(vehicle, at, joints_sent(sent))
    form = ManyMarksForm(sent, joints=joints_there, units=vehicle.garage.units)
    if form.is_valid():
        try:
            marks = joints.mark_many(form.markings(), by=request.member, at=at, key=tap_key(request))
        except Refused as refused:
            form.put(str(refused), refused.field)
            if refused.field == "after":
                form.look_again()
        else:
            messages.success(request, f"Marked: {listed_in_words(str(mark.joint) for mark in marks)}.")
            return see(reverse("joint_list", args=[pk]))
    return page(request, "builds/joints/joint_mark_many.html", {"vehicle": vehicle}, form=form, menu="cars")


@once
def joint_sign_many(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle, at = visible(Vehicle, request.member, pk=pk), clock.now()
    require(refuse_working(request.member))
    sent = request.POST if request.method == "POST" else None
    form = ManyLooksForm(sent, lines=to_look_at(vehicle, request.member, at))
    if form.is_valid():
        with refused_at(form):
            count = joints.sign_many(form.looked_at(), by=request.member, at=at, key=tap_key(request))
            messages.success(request, f"{count} joint{'s are' if count > 1 else ' is'} signed.")
            return see(reverse("joint_list", args=[pk]))
    return page(request, "builds/joints/joint_sign_many.html", {"vehicle": vehicle}, form=form, menu="cars")


@once
def joint_sign(request: GarageRequest, pk: int) -> HttpResponse:
    joint = visible(Joint, request.member, pk=pk, retired_at=None)
    require(refuse_working(request.member))
    form = JointSignForm(request.POST if request.method == "POST" else None, member=request.member, joint=joint)
    if form.is_valid():
        try:
            joints.sign(joint, by=request.member, at=clock.now(), key=tap_key(request), **form.cleaned_data)
        except Refused as refused:
            if not refused.field:  # nothing in the form would mend it
                say_refused(request, str(refused))
                return back(request, _list(joint))
            form.add_error(refused.field, str(refused))
        else:
            messages.success(request, f"{joint} is signed.")
            return back(request, _list(joint))
    return page(request, "builds/joints/joint_sign.html", {"joint": joint}, form=form, menu="cars")
