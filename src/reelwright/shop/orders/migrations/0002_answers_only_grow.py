"""What a customer was told is never changed in the records; the database itself refuses."""

from django.db import migrations

from reelwright.shop.append_only import ForbidChanges


class Migration(migrations.Migration):
    dependencies = [("orders", "0001_begin")]

    operations = [ForbidChanges("orders_answer")]
