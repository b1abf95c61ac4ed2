"""Read by gunicorn wherever it is started from this folder."""

logger_class = "garage.access_log.MaskedLogger"
