def calendar_bytes(plan):
    return b""
