"""The tables of the searches for process windows."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    initial = True

    dependencies = [
        ("catalogue", "0003_type_marks"),
        ("setups", "0002_fit_overrides"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="Search",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("code", models.CharField(max_length=12, unique=True)),
                ("name", models.CharField(max_length=80)),
                ("question", models.CharField(blank=True, max_length=300)),
                (
                    "process",
                    models.CharField(
                        choices=[
                            ("weld", "weld"),
                            ("crimp height", "crimp height"),
                            ("strip depth", "strip depth"),
                            ("something else", "something else"),
                        ],
                        max_length=20,
                    ),
                ),
                (
                    "state",
                    models.CharField(
                        choices=[("open", "open"), ("closed", "closed")], max_length=8
                    ),
                ),
                ("opened_on", models.DateField()),
                ("coverage", models.FloatField()),
                ("confidence", models.FloatField()),
                ("unsafe_chance", models.FloatField()),
                ("expected_good_fraction", models.FloatField()),
                ("clear_drifts_ratio", models.FloatField()),
                ("most_trials", models.PositiveSmallIntegerField(null=True)),
                (
                    "cable",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="catalogue.cabletype",
                    ),
                ),
                (
                    "connector",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="catalogue.connectortype",
                    ),
                ),
                (
                    "opened_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "searches",
                "ordering": ("code",),
            },
        ),
        migrations.CreateModel(
            name="SearchLooks",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                ("name", models.CharField(max_length=40)),
                ("least_share", models.FloatField()),
                (
                    "search",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="looks",
                        to="trials.search",
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "search looks",
                "ordering": ("search", "position"),
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.CreateModel(
            name="SearchMove",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "new",
                    models.CharField(
                        choices=[("open", "open"), ("closed", "closed")], max_length=8
                    ),
                ),
                ("moved_on", models.DateField()),
                ("reason", models.CharField(max_length=300)),
                (
                    "moved_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "search",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="moves",
                        to="trials.search",
                    ),
                ),
            ],
            options={
                "ordering": ("search", "id"),
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.CreateModel(
            name="SearchResponse",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                ("name", models.CharField(max_length=40)),
                ("unit", models.CharField(max_length=20)),
                ("lower_limit", models.FloatField(null=True)),
                ("upper_limit", models.FloatField(null=True)),
                ("unsafe_below", models.FloatField(null=True)),
                ("unsafe_above", models.FloatField(null=True)),
                (
                    "guess_kind",
                    models.CharField(
                        choices=[("level", "level"), ("slope", "slope"), ("peak", "peak")],
                        max_length=8,
                    ),
                ),
                ("guess_setting", models.CharField(blank=True, max_length=40)),
                ("guess_best_at", models.FloatField(null=True)),
                ("guess_ratio_factor", models.FloatField(null=True)),
                (
                    "search",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="responses",
                        to="trials.search",
                    ),
                ),
            ],
            options={
                "ordering": ("search", "position"),
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.CreateModel(
            name="SearchSetting",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                ("name", models.CharField(max_length=40)),
                ("unit", models.CharField(max_length=20)),
                ("low", models.FloatField()),
                ("high", models.FloatField()),
                ("step", models.FloatField()),
                ("drift", models.FloatField()),
                (
                    "search",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="settings",
                        to="trials.search",
                    ),
                ),
            ],
            options={
                "ordering": ("search", "position"),
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.CreateModel(
            name="TrialFile",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("name", models.CharField(max_length=200)),
                (
                    "digest",
                    models.CharField(help_text="SHA-256 of the trials in it", max_length=64),
                ),
                ("read_on", models.DateField()),
                (
                    "read_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "search",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="files",
                        to="trials.search",
                    ),
                ),
            ],
            options={
                "ordering": ("search", "id"),
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.CreateModel(
            name="TrialMade",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.PositiveIntegerField()),
                (
                    "values",
                    models.JSONField(help_text="the settings in their order, each in its unit"),
                ),
                ("failure", models.CharField(blank=True, max_length=300)),
                ("note", models.CharField(blank=True, max_length=300)),
                ("made_on", models.DateField()),
                (
                    "file",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="trials",
                        to="trials.trialfile",
                    ),
                ),
                (
                    "made_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "search",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="trials",
                        to="trials.search",
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "trials made",
                "ordering": ("search", "number"),
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.CreateModel(
            name="TrialReading",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                ("value", models.FloatField()),
                (
                    "response",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="trials.searchresponse",
                    ),
                ),
                (
                    "trial",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="readings",
                        to="trials.trialmade",
                    ),
                ),
            ],
            options={
                "ordering": ("trial", "response", "position"),
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.CreateModel(
            name="TrialSeen",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("good", models.PositiveIntegerField()),
                ("seen_count", models.PositiveIntegerField()),
                (
                    "looks",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="trials.searchlooks",
                    ),
                ),
                (
                    "trial",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="seen",
                        to="trials.trialmade",
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "trials seen",
                "ordering": ("trial", "looks"),
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.CreateModel(
            name="TrialTakenBack",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("reason", models.CharField(max_length=300)),
                ("taken_back_on", models.DateField()),
                (
                    "taken_back_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "trial",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="taken_back",
                        to="trials.trialmade",
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "trials taken back",
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.CreateModel(
            name="WeldGauge",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("area_mm2", models.FloatField()),
                ("energy_j", models.FloatField()),
                ("note", models.CharField(blank=True, max_length=200)),
                ("known_on", models.DateField()),
                (
                    "known_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ("area_mm2", "id"),
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.CreateModel(
            name="WindowFound",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "content",
                    models.JSONField(help_text="centre, spans, claims, and the trials it rests on"),
                ),
                ("found_on", models.DateField()),
                (
                    "found_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "search",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="windows",
                        to="trials.search",
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "windows found",
                "ordering": ("search", "id"),
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.CreateModel(
            name="WindowCited",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("cited_on", models.DateField()),
                (
                    "cited_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "revision",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="setups.revision",
                    ),
                ),
                (
                    "window",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="cited",
                        to="trials.windowfound",
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "windows cited",
                "ordering": ("id",),
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.AddConstraint(
            model_name="search",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("process__in", ["weld", "crimp height", "strip depth", "something else"])
                ),
                name="search_process_is_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="search",
            constraint=models.CheckConstraint(
                condition=models.Q(("state__in", ["open", "closed"])), name="search_state_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="search",
            constraint=models.CheckConstraint(
                condition=models.Q(("name", ""), _negated=True), name="search_has_a_name"
            ),
        ),
        migrations.AddConstraint(
            model_name="search",
            constraint=models.CheckConstraint(
                condition=models.Q(("coverage__gt", 0), ("coverage__lt", 1)),
                name="search_coverage_is_a_share",
            ),
        ),
        migrations.AddConstraint(
            model_name="search",
            constraint=models.CheckConstraint(
                condition=models.Q(("confidence__gt", 0), ("confidence__lt", 1)),
                name="search_confidence_is_a_share",
            ),
        ),
        migrations.AddConstraint(
            model_name="search",
            constraint=models.CheckConstraint(
                condition=models.Q(("unsafe_chance__gt", 0), ("unsafe_chance__lt", 1)),
                name="search_unsafe_chance_is_a_share",
            ),
        ),
        migrations.AddConstraint(
            model_name="search",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("expected_good_fraction__gt", 0), ("expected_good_fraction__lt", 1)
                ),
                name="search_expected_good_is_a_share",
            ),
        ),
        migrations.AddConstraint(
            model_name="search",
            constraint=models.CheckConstraint(
                condition=models.Q(("clear_drifts_ratio__gte", 0)),
                name="search_clear_drifts_from_zero",
            ),
        ),
        migrations.AddConstraint(
            model_name="searchlooks",
            constraint=models.UniqueConstraint(fields=("search", "name"), name="looks_name_once"),
        ),
        migrations.AddConstraint(
            model_name="searchlooks",
            constraint=models.CheckConstraint(
                condition=models.Q(("least_share__gt", 0), ("least_share__lt", 1)),
                name="looks_least_share_is_a_share",
            ),
        ),
        migrations.AddConstraint(
            model_name="searchmove",
            constraint=models.CheckConstraint(
                condition=models.Q(("new__in", ["open", "closed"])), name="search_move_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="searchmove",
            constraint=models.CheckConstraint(
                condition=models.Q(("reason", ""), _negated=True), name="search_move_has_reason"
            ),
        ),
        migrations.AddConstraint(
            model_name="searchresponse",
            constraint=models.UniqueConstraint(
                fields=("search", "position"), name="response_position_once"
            ),
        ),
        migrations.AddConstraint(
            model_name="searchresponse",
            constraint=models.UniqueConstraint(
                fields=("search", "name"), name="response_name_once"
            ),
        ),
        migrations.AddConstraint(
            model_name="searchresponse",
            constraint=models.CheckConstraint(
                condition=models.Q(("guess_kind__in", ["level", "slope", "peak"])),
                name="response_guess_is_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="searchresponse",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("lower_limit__isnull", False), ("upper_limit__isnull", False), _connector="OR"
                ),
                name="response_has_a_limit",
            ),
        ),
        migrations.AddConstraint(
            model_name="searchresponse",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(
                        ("guess_kind", "peak"),
                        models.Q(("guess_setting", ""), _negated=True),
                        ("guess_best_at__gt", 0),
                        ("guess_best_at__isnull", False),
                        ("guess_ratio_factor__gt", 1),
                        ("guess_ratio_factor__isnull", False),
                    ),
                    models.Q(
                        models.Q(("guess_kind", "peak"), _negated=True),
                        ("guess_best_at__isnull", True),
                        ("guess_ratio_factor__isnull", True),
                        ("guess_setting", ""),
                    ),
                    _connector="OR",
                ),
                name="response_peak_is_whole",
            ),
        ),
        migrations.AddConstraint(
            model_name="searchsetting",
            constraint=models.UniqueConstraint(
                fields=("search", "position"), name="setting_position_once"
            ),
        ),
        migrations.AddConstraint(
            model_name="searchsetting",
            constraint=models.UniqueConstraint(fields=("search", "name"), name="setting_name_once"),
        ),
        migrations.AddConstraint(
            model_name="searchsetting",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("drift__gte", 0), ("high__gt", models.F("low")), ("step__gt", 0)
                ),
                name="setting_has_a_range",
            ),
        ),
        migrations.AddConstraint(
            model_name="trialfile",
            constraint=models.UniqueConstraint(
                fields=("search", "digest"), name="trial_file_read_once"
            ),
        ),
        migrations.AddConstraint(
            model_name="trialmade",
            constraint=models.UniqueConstraint(
                fields=("search", "number"), name="trial_number_once"
            ),
        ),
        migrations.AddConstraint(
            model_name="trialmade",
            constraint=models.CheckConstraint(
                condition=models.Q(("number__gte", 1)), name="trial_number_from_one"
            ),
        ),
        migrations.AddConstraint(
            model_name="trialreading",
            constraint=models.UniqueConstraint(
                fields=("trial", "response", "position"), name="reading_position_once"
            ),
        ),
        migrations.AddConstraint(
            model_name="trialseen",
            constraint=models.UniqueConstraint(
                fields=("trial", "looks"), name="seen_once_per_looks"
            ),
        ),
        migrations.AddConstraint(
            model_name="trialseen",
            constraint=models.CheckConstraint(
                condition=models.Q(("good__lte", models.F("seen_count")), ("seen_count__gte", 1)),
                name="seen_no_more_than_looked_at",
            ),
        ),
        migrations.AddConstraint(
            model_name="trialtakenback",
            constraint=models.CheckConstraint(
                condition=models.Q(("reason", ""), _negated=True), name="taken_back_has_reason"
            ),
        ),
        migrations.AddConstraint(
            model_name="weldgauge",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("area_mm2__gt", 0), ("area_mm2__isnull", True), _connector="OR"),
                    models.Q(("energy_j__gt", 0), ("energy_j__isnull", True), _connector="OR"),
                ),
                name="weld_gauge_above_zero",
            ),
        ),
        migrations.AddConstraint(
            model_name="windowcited",
            constraint=models.UniqueConstraint(
                fields=("window", "revision"), name="window_cited_once"
            ),
        ),
    ]
