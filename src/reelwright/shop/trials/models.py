"""Tables of the searches. Written by ``services`` only, read by ``selectors`` only.

What a search asks, its trials and its windows are evidence and only grow; a trial that was a
mistake is taken back by an entry that says why. The state of a search alone moves, by a service
that asks for the old state.
"""

from django.db import models

from reelwright.shop.append_only import AppendOnly
from reelwright.shop.catalogue.fields import above_zero, one_of, words_of
from reelwright.shop.trials.states import GuessKind, Process, SearchState

_PERSON = "people.Person"


def _share(field: str, *, name: str) -> models.CheckConstraint:
    return models.CheckConstraint(
        condition=models.Q(**{f"{field}__gt": 0, f"{field}__lt": 1}), name=name
    )


class Search(models.Model):
    """A search for the window of one process on one cable with one connector."""

    code = models.CharField(max_length=12, unique=True)
    name = models.CharField(max_length=80)
    question = models.CharField(max_length=300, blank=True)
    process = models.CharField(max_length=20, choices=words_of(Process))
    cable = models.ForeignKey("catalogue.CableType", models.PROTECT, related_name="+")
    connector = models.ForeignKey("catalogue.ConnectorType", models.PROTECT, related_name="+")
    state = models.CharField(max_length=8, choices=words_of(SearchState))
    opened_on = models.DateField()
    opened_by = models.ForeignKey(_PERSON, models.PROTECT, related_name="+")
    coverage = models.FloatField()
    confidence = models.FloatField()
    unsafe_chance = models.FloatField()
    expected_good_fraction = models.FloatField()
    clear_drifts_ratio = models.FloatField()
    most_trials = models.PositiveSmallIntegerField(null=True)

    class Meta:
        ordering = ("code",)
        verbose_name_plural = "searches"
        constraints = (
            one_of("process", Process, name="search_process_is_known"),
            one_of("state", SearchState, name="search_state_is_known"),
            models.CheckConstraint(condition=~models.Q(name=""), name="search_has_a_name"),
            _share("coverage", name="search_coverage_is_a_share"),
            _share("confidence", name="search_confidence_is_a_share"),
            _share("unsafe_chance", name="search_unsafe_chance_is_a_share"),
            _share("expected_good_fraction", name="search_expected_good_is_a_share"),
            models.CheckConstraint(
                condition=models.Q(clear_drifts_ratio__gte=0), name="search_clear_drifts_from_zero"
            ),
        )

    def __str__(self) -> str:
        return self.code


class SearchMove(AppendOnly):
    """A search was closed or opened again: who, when, why."""

    search = models.ForeignKey(Search, models.PROTECT, related_name="moves")
    new = models.CharField(max_length=8, choices=words_of(SearchState))
    moved_on = models.DateField()
    moved_by = models.ForeignKey(_PERSON, models.PROTECT, related_name="+")
    reason = models.CharField(max_length=300)

    class Meta(AppendOnly.Meta):
        ordering = ("search", "id")
        constraints = (
            one_of("new", SearchState, name="search_move_is_known"),
            models.CheckConstraint(condition=~models.Q(reason=""), name="search_move_has_reason"),
        )

    def __str__(self) -> str:
        return f"{self.search_id}: {self.new}"


class SearchSetting(AppendOnly):
    """One setting: from where to where, in which steps, how well the machine holds it."""

    search = models.ForeignKey(Search, models.PROTECT, related_name="settings")
    position = models.PositiveSmallIntegerField()
    name = models.CharField(max_length=40)
    unit = models.CharField(max_length=20)
    low = models.FloatField()
    high = models.FloatField()
    step = models.FloatField()
    drift = models.FloatField()

    class Meta(AppendOnly.Meta):
        ordering = ("search", "position")
        constraints = (
            models.UniqueConstraint(fields=("search", "position"), name="setting_position_once"),
            models.UniqueConstraint(fields=("search", "name"), name="setting_name_once"),
            models.CheckConstraint(
                condition=models.Q(high__gt=models.F("low"), step__gt=0, drift__gte=0),
                name="setting_has_a_range",
            ),
        )

    def __str__(self) -> str:
        return self.name


class SearchResponse(AppendOnly):
    """One measured response, its limits, and what physics says of it beforehand.

    The ``guess_…`` but the kind are those of a peak, null for any other.
    """

    search = models.ForeignKey(Search, models.PROTECT, related_name="responses")
    position = models.PositiveSmallIntegerField()
    name = models.CharField(max_length=40)
    unit = models.CharField(max_length=20)
    lower_limit = models.FloatField(null=True)
    upper_limit = models.FloatField(null=True)
    unsafe_below = models.FloatField(null=True)
    unsafe_above = models.FloatField(null=True)
    guess_kind = models.CharField(max_length=8, choices=words_of(GuessKind))
    guess_setting = models.CharField(max_length=40, blank=True)
    guess_best_at = models.FloatField(null=True)
    guess_ratio_factor = models.FloatField(null=True)

    class Meta(AppendOnly.Meta):
        ordering = ("search", "position")
        constraints = (
            models.UniqueConstraint(fields=("search", "position"), name="response_position_once"),
            models.UniqueConstraint(fields=("search", "name"), name="response_name_once"),
            one_of("guess_kind", GuessKind, name="response_guess_is_known"),
            models.CheckConstraint(
                condition=models.Q(lower_limit__isnull=False) | models.Q(upper_limit__isnull=False),
                name="response_has_a_limit",
            ),
            models.CheckConstraint(
                condition=(
                    models.Q(guess_kind=GuessKind.PEAK.value)
                    & ~models.Q(guess_setting="")
                    & models.Q(guess_best_at__isnull=False, guess_best_at__gt=0)
                    & models.Q(guess_ratio_factor__isnull=False, guess_ratio_factor__gt=1)
                )
                | (
                    ~models.Q(guess_kind=GuessKind.PEAK.value)
                    & models.Q(
                        guess_setting="",
                        guess_best_at__isnull=True,
                        guess_ratio_factor__isnull=True,
                    )
                ),
                name="response_peak_is_whole",
            ),
        )

    def __str__(self) -> str:
        return self.name


class SearchLooks(AppendOnly):
    """Something a trained eye answers with ok or not, and the share that must be ok."""

    search = models.ForeignKey(Search, models.PROTECT, related_name="looks")
    position = models.PositiveSmallIntegerField()
    name = models.CharField(max_length=40)
    least_share = models.FloatField()

    class Meta(AppendOnly.Meta):
        ordering = ("search", "position")
        verbose_name_plural = "search looks"
        constraints = (
            models.UniqueConstraint(fields=("search", "name"), name="looks_name_once"),
            _share("least_share", name="looks_least_share_is_a_share"),
        )

    def __str__(self) -> str:
        return self.name


class TrialFile(AppendOnly):
    """A file of trials that was read: the same content is not read twice for one search."""

    search = models.ForeignKey(Search, models.PROTECT, related_name="files")
    name = models.CharField(max_length=200)
    digest = models.CharField(max_length=64, help_text="SHA-256 of the trials in it")
    read_on = models.DateField()
    read_by = models.ForeignKey(_PERSON, models.PROTECT, related_name="+")

    class Meta(AppendOnly.Meta):
        ordering = ("search", "id")
        constraints = (
            models.UniqueConstraint(fields=("search", "digest"), name="trial_file_read_once"),
        )

    def __str__(self) -> str:
        return self.name


class TrialMade(AppendOnly):
    """One trial: how the machine was set, and how it failed outright where it did."""

    search = models.ForeignKey(Search, models.PROTECT, related_name="trials")
    number = models.PositiveIntegerField()
    values = models.JSONField(help_text="the settings in their order, each in its unit")
    failure = models.CharField(max_length=300, blank=True)
    note = models.CharField(max_length=300, blank=True)
    made_on = models.DateField()
    made_by = models.ForeignKey(_PERSON, models.PROTECT, related_name="+")
    file = models.ForeignKey(TrialFile, models.PROTECT, null=True, related_name="trials")

    class Meta(AppendOnly.Meta):
        ordering = ("search", "number")
        verbose_name_plural = "trials made"
        constraints = (
            models.UniqueConstraint(fields=("search", "number"), name="trial_number_once"),
            models.CheckConstraint(condition=models.Q(number__gte=1), name="trial_number_from_one"),
        )

    def __str__(self) -> str:
        return f"{self.search_id}, trial {self.number}"


class TrialReading(AppendOnly):
    """One reading of one response at one trial, in the unit of that response."""

    trial = models.ForeignKey(TrialMade, models.PROTECT, related_name="readings")
    response = models.ForeignKey(SearchResponse, models.PROTECT, related_name="+")
    position = models.PositiveSmallIntegerField()
    value = models.FloatField()

    class Meta(AppendOnly.Meta):
        ordering = ("trial", "response", "position")
        constraints = (
            models.UniqueConstraint(
                fields=("trial", "response", "position"), name="reading_position_once"
            ),
        )

    def __str__(self) -> str:
        return f"{self.value:g}"


class TrialSeen(AppendOnly):
    """How many parts of one trial were looked at, and how many of them were ok."""

    trial = models.ForeignKey(TrialMade, models.PROTECT, related_name="seen")
    looks = models.ForeignKey(SearchLooks, models.PROTECT, related_name="+")
    good = models.PositiveIntegerField()
    seen_count = models.PositiveIntegerField()

    class Meta(AppendOnly.Meta):
        ordering = ("trial", "looks")
        verbose_name_plural = "trials seen"
        constraints = (
            models.UniqueConstraint(fields=("trial", "looks"), name="seen_once_per_looks"),
            models.CheckConstraint(
                condition=models.Q(seen_count__gte=1, good__lte=models.F("seen_count")),
                name="seen_no_more_than_looked_at",
            ),
        )

    def __str__(self) -> str:
        return f"{self.good}/{self.seen_count}"


class TrialTakenBack(AppendOnly):
    """A trial that does not count, and why. Its number is not given again."""

    trial = models.OneToOneField(TrialMade, models.PROTECT, related_name="taken_back")
    reason = models.CharField(max_length=300)
    taken_back_on = models.DateField()
    taken_back_by = models.ForeignKey(_PERSON, models.PROTECT, related_name="+")

    class Meta(AppendOnly.Meta):
        verbose_name_plural = "trials taken back"
        constraints = (
            models.CheckConstraint(condition=~models.Q(reason=""), name="taken_back_has_reason"),
        )

    def __str__(self) -> str:
        return f"{self.trial_id}: {self.reason}"


class WindowFound(AppendOnly):
    """The window of a search, written down as the engine gave it on that day."""

    search = models.ForeignKey(Search, models.PROTECT, related_name="windows")
    content = models.JSONField(help_text="centre, spans, claims, and the trials it rests on")
    found_on = models.DateField()
    found_by = models.ForeignKey(_PERSON, models.PROTECT, related_name="+")

    class Meta(AppendOnly.Meta):
        ordering = ("search", "id")
        verbose_name_plural = "windows found"

    def __str__(self) -> str:
        return f"window of {self.search_id}"


class WindowCited(AppendOnly):
    """A revision of a set-up names the window that its machine is set by."""

    window = models.ForeignKey(WindowFound, models.PROTECT, related_name="cited")
    revision = models.ForeignKey("setups.Revision", models.PROTECT, related_name="+")
    cited_on = models.DateField()
    cited_by = models.ForeignKey(_PERSON, models.PROTECT, related_name="+")

    class Meta(AppendOnly.Meta):
        ordering = ("id",)
        verbose_name_plural = "windows cited"
        constraints = (
            models.UniqueConstraint(fields=("window", "revision"), name="window_cited_once"),
        )

    def __str__(self) -> str:
        return f"{self.window_id} in {self.revision_id}"


class WeldGauge(AppendOnly):
    """A conductor that the shop welds well: its area and the energy in the middle of its window."""

    area_mm2 = models.FloatField()
    energy_j = models.FloatField()
    note = models.CharField(max_length=200, blank=True)
    known_on = models.DateField()
    known_by = models.ForeignKey(_PERSON, models.PROTECT, related_name="+")

    class Meta(AppendOnly.Meta):
        ordering = ("area_mm2", "id")
        constraints = (above_zero("area_mm2", "energy_j", name="weld_gauge_above_zero"),)

    def __str__(self) -> str:
        return f"{self.area_mm2:g} mm², {self.energy_j:g} J"
