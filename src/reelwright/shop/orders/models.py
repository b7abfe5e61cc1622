"""Orders as customers wrote them, beside what they were read as, and every answer given.

A customer's personal data stand in ``CustomerDetails`` alone; orders point at the number, so that
a person can be erased while the record of what was made stays whole.
"""

from django.db import models

from reelwright.shop.append_only import AppendOnly


class Customer(models.Model):
    """A customer by number."""

    number = models.PositiveIntegerField(unique=True)
    erased_at = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return f"C-{self.number:04d}"


class CustomerDetails(models.Model):
    """The one place where a customer's own data stand."""

    customer = models.OneToOneField(Customer, models.CASCADE, related_name="details")
    name = models.CharField(max_length=200, unique=True)
    email = models.EmailField(blank=True)
    note = models.TextField(blank=True)

    class Meta:
        verbose_name_plural = "customer details"

    def __str__(self) -> str:
        return self.name


class Order(models.Model):
    """An order, known by its customer and number."""

    customer = models.ForeignKey(Customer, models.PROTECT, related_name="orders")
    number = models.CharField(max_length=40)
    received_on = models.DateField()
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = (
            models.UniqueConstraint(
                fields=("customer", "number"), name="order_known_by_customer_and_number"
            ),
        )

    def __str__(self) -> str:
        return self.number


class LineState(models.TextChoices):
    """What the customer was last told about a line."""

    ACCEPTED = "accepted", "accepted"
    HELD = "held", "held"
    REFUSED = "refused", "refused"


class OrderLine(models.Model):
    """One line: the columns exactly as they came, and where it stands."""

    order = models.ForeignKey(Order, models.PROTECT, related_name="lines")
    number = models.PositiveIntegerField()
    cells = models.JSONField(help_text="every column as it came, by name")
    digest = models.CharField(max_length=64, help_text="SHA-256 of the cells")
    follows = models.ForeignKey(
        "self",
        models.PROTECT,
        null=True,
        blank=True,
        related_name="followed_by",
        help_text="the line whose offer this one takes up",
    )
    state = models.CharField(max_length=10, choices=LineState)
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("order__number", "number")
        constraints = (
            models.UniqueConstraint(fields=("order", "number"), name="line_known_by_its_number"),
            models.CheckConstraint(
                condition=models.Q(state__in=LineState.values), name="line_state_known"
            ),
            models.CheckConstraint(condition=models.Q(number__gte=1), name="line_number_from_one"),
        )

    def __str__(self) -> str:
        return f"{self.order.number}/{self.number}"


class Answer(AppendOnly):
    """What was answered on a line, with every number it rests on. Append-only."""

    line = models.ForeignKey(OrderLine, models.PROTECT, related_name="answers")
    sequence = models.PositiveIntegerField()
    state = models.CharField(max_length=10, choices=LineState)
    content = models.JSONField(help_text="the answer in full, as the engines gave it")
    answered_on = models.DateField()
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta(AppendOnly.Meta):
        ordering = ("line", "sequence")
        constraints = (
            models.UniqueConstraint(fields=("line", "sequence"), name="answer_in_sequence"),
        )

    def __str__(self) -> str:
        return f"{self.line}: {self.state}"
