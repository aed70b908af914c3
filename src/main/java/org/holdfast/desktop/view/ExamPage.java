package org.holdfast.desktop.view;

import org.holdfast.desktop.state.Act;

/** A page over the review that shows the chosen exam as a whole. */
public interface ExamPage {

    /** Does what a key is for; tells whether it was for anything here. */
    boolean act(Act act);

    /** Lets go of the exam. */
    void close();
}
