package org.holdfast.desktop.viewmodel;

/** How it stands with taking exams in. All are immutable. */
public sealed interface TakingIn {

    /** Nothing is going on. */
    record Idle() implements TakingIn {}

    /**
     * They are being taken in.
     *
     * @param fraction done so far, 0 to 1
     * @param activity what is being done
     * @param isStopping whether the person asked to stop, which takes a moment
     */
    record Running(double fraction, String activity, boolean isStopping) implements TakingIn {}

    /**
     * They could not be taken in; nothing of them was left in the folder.
     *
     * @param reason why
     */
    record Failed(String reason) implements TakingIn {}

    /** It was stopped; nothing was left in the folder. */
    record Stopped() implements TakingIn {}
}
