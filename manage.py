#!/usr/bin/env python
"""Run a management command of this project."""

import os
import sys

from django.core.exceptions import ImproperlyConfigured
from django.core.management import execute_from_command_line

if __name__ == "__main__":
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "garage.settings")
    try:
        execute_from_command_line(sys.argv)
    except ImproperlyConfigured as wrong:
        sys.exit(str(wrong))
