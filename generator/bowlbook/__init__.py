"""Bowlbook: a house recipe book for hair lightening, read strictly, computed exactly, published."""
