package org.holdfast.desktop.view;

/** A page that shows a series before it is taken in. */
public interface SeriesSight extends ExamPage {

    /** Whether the series is there, or cannot be read. */
    boolean isSettled();
}
