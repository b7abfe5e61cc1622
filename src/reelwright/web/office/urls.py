"""The addresses of the pages at the desk."""

from django.urls import path

from reelwright.web.office import (
    arrives,
    ask,
    cables,
    cut_list,
    grid,
    lines,
    lots,
    packs,
    pair,
    reels,
    search,
    set_ups,
    signing,
    today,
)

urlpatterns = [
    path("", today.today_page, name="today"),
    path("sign-in", signing.SignIn.as_view(), name="sign_in"),
    path("sign-out", signing.sign_out, name="sign_out"),
    path("orders/upload", today.upload, name="upload"),
    path("orders/<int:line_id>", lines.line_page, name="line"),
    path("orders/<int:line_id>/traveller.pdf", lines.traveller, name="traveller"),
    path("orders/<int:line_id>/offers/<int:offer>", lines.take_up, name="take_up"),
    path("plan", today.plan, name="plan"),
    path("runs/<int:run_id>/<str:name>", packs.pack_download, name="pack_file"),
    path("ask", ask.ask_page, name="ask"),
    path("ask/arrives", arrives.arrives_page, name="arrives"),
    path("ask/length", ask.length_reading, name="length_reading"),
    path("ask/take", ask.take, name="take"),
    path("cables", cables.cables_page, name="cables"),
    path("cables/<str:code>", cables.cable_page, name="cable"),
    path("reels", reels.reels_page, name="reels"),
    path("reels/<str:code>", reels.reel_page, name="reel"),
    path("lots/<str:code>", lots.lot_page, name="lot"),
    path("cut-list", cut_list.cut_list_page, name="cut_list"),
    path("grid", grid.grid_page, name="grid"),
    path("grid/<str:cable>/<str:connector>", pair.pair_page, name="pair"),
    path("set-ups", set_ups.set_ups_page, name="set_ups"),
    path("set-ups/<str:code>", set_ups.set_up_page, name="set_up"),
    path("set-ups/<str:code>/sheet.pdf", set_ups.sheet_pdf, name="set_up_sheet"),
    path("set-ups/<str:code>/strip", set_ups.strip_page, name="strip"),
    path("search", search.search_page, name="search"),
]
