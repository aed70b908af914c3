package org.holdfast.desktop.state;

/**
 * One radiograph of a subject.
 *
 * @param exam index of its exam
 * @param film its place among the exam's films
 */
public record FilmPlace(int exam, int film) {}
