"""What a proved pattern answers when it is asked: what if, kits for a group, a teaching sample, time and cost."""
