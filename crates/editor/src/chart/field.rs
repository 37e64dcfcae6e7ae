//! Fields of values over two axes.
