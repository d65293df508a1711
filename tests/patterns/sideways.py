"""Patterns with rows that lie across the others: a brim, ribbing, borders."""

HEAD = """---
title: Quay
sizes: S (M, L)
gauge:
  brim: 16 sts and 20 rows = 10 cm in sc ribbing
  body: 14 sts and 11 rows = 10 cm in dc
---
"""
BAND = """
### Brim

Ch 11.

Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)

Rows 2-96 (104, 112): Ch 1, turn. Sc in blo of each st across. (10 sc)
"""
HAT = f"""{HEAD}
## Hat
{BAND}
Sl st the ends together to form a ring.

### Body

Rnd 1: Ch 1, rotate to work along row ends, work 72 (78, 84) sc evenly along row ends; join. (72 (78, 84) sc)

Rnds 2-14: Ch 3 (counts as dc), dc in next st and in each st around; join. (72 (78, 84) dc)
"""
BACK = f"""{HEAD}
## Back
{BAND}
### Body

Row 1 (RS): Ch 1, rotate to work along row ends, work 66 (72, 78) sc evenly along row ends of ribbing. (66 (72, 78) sc)

Rows 2-40: Ch 3 (counts as dc), turn. Dc in next st and in each st across. (66 (72, 78) dc)
"""
FRONT = """---
title: Sluice
gauge: 14 sts and 18 rows = 10 cm in sc
---
## Panel

Ch 31.

Row 1: Sc in 2nd ch from hook and in each ch across. (30 sc)

Rows 2-90: Ch 1, turn. Sc in each st across. (30 sc)

Fasten off.

Right border:

Row 1: Join yarn in the corner, ch 1, work 70 sc evenly along row ends of the right side. (70 sc)

Rows 2-6: Ch 1, turn. Sc in each st across. (70 sc)

Fasten off.

Left border:

Row 1: Join yarn in the corner, ch 1, work 70 sc evenly along row ends of the left side. (70 sc)

Rows 2-6: Ch 1, turn. Sc in each st across. (70 sc)
"""
