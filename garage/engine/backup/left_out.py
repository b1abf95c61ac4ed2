"""What a backup leaves out: tables that belong to the machine and not to the garage, each with why.

Receipts are carried: a phone that comes back with writes it made without signal would else have them
counted twice. So are the digests of share links, which tell no link, and the digests of passwords,
without which nobody could sign in.
"""

LEFT_OUT = {
    "django_session": "who is signed in: a session copied is a door left open, and everybody can sign in anew",
    "garage_signinlink": "one-time sign-in links: they last a day at most, and a new one is made in one tap",
    "garage_device": "on which devices people are signed in: their sessions stay behind too",
    "garage_tries": "counted tries at the door, by digests of addresses: they serve this machine, these days",
    "django_tasks_database_dbtaskresult": "what was to be done beside the server: it is begun anew as it is wanted",
    "django_content_type": "written anew by the migrations",
    "auth_permission": "written anew by the migrations",
    "auth_group": "not used: roles are memberships",
    "auth_group_permissions": "not used: roles are memberships",
}

# What stands in every database that was migrated: copying a whole database leaves out no more than this.
WRITTEN_ANEW = ("django_content_type", "auth_permission", "auth_group", "auth_group_permissions")
