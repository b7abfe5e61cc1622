"""The pages: form, one call into the shop, template. No rule of the trade lives here."""
