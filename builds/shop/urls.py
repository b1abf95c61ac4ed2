"""Addresses of cures, the shop's warmth and products."""

from django.urls import URLPattern, path

from builds.shop.views import cures, products, shop

urlpatterns: list[URLPattern] = [
    path("jobs/<int:pk>/sand/", cures.cure_sand, name="cure_sand"),
    path("shop/", shop.shop_page, name="shop_page"),
    path("shop/read/", shop.shop_read, name="shop_read"),
    path("shop/readings/<int:pk>/delete/", shop.shop_forget, name="shop_forget"),
    path("shop/days/", shop.shop_days, name="shop_days"),
    path("shop/heat/", shop.shop_heat, name="shop_heat"),
    path("shop/heat/<int:pk>/delete/", shop.shop_unheat, name="shop_unheat"),
    path("products/", products.product_list, name="product_list"),
    path("products/add/", products.product_add, name="product_add"),
    path("products/<slug:slug>/", products.product_page, name="product_page"),
    path("products/<slug:slug>/edit/", products.product_edit, name="product_edit"),
    path("products/<slug:slug>/reset/", products.product_reset, name="product_reset"),
]
