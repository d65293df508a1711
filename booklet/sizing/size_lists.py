"""Size lists where numbers are sized: the front matter and the rows read them alike."""

from booklet.reading.size_lists import SIZE_LIST, MeasureList, find_measure_lists, read_size_list

__all__ = ["SIZE_LIST", "MeasureList", "find_measure_lists", "read_size_list"]
