package org.holdfast.dicom;

/**
 * What one header may take in memory, elements and findings, so that several hostile headers that are read at once fit a
 * heap of 512 MiB. Counts the objects that are kept, not only the values: an element of eight bytes in the file takes
 * about seventy in memory. One use per file.
 */
final class HeaderBudget {

    /** Most elements, items and fragments of one header: bounds the time. */
    static final int MOST_ELEMENTS = 1_000_000;
    /** Longest value that is kept, bytes. */
    static final long LONGEST_VALUE = 64L << 20;
    /** Longest text or list of numbers, bytes: each of its values becomes an object when it is asked for. */
    static final long LONGEST_LIST = 1L << 20;
    /** Largest header in memory, bytes; a quarter of the heap if that is less. */
    static final long LARGEST = 256L << 20;

    /** An element, its array's head and filling, and its place in lists that are copied when they grow. */
    private static final int ELEMENT_BYTES = 72;
    /** An item's data set, its list and its place in the sequence. */
    private static final int ITEM_BYTES = 112;
    /** Attempts to read a value of unknown representation as items that may fail: each costs an exception. */
    private static final int MOST_FAILURES = 1000;

    private static final int MOST_NOTES = 50;

    private final long most = Math.min(LARGEST, Runtime.getRuntime().maxMemory() / 4);
    private int count;
    private long memory;
    private long wasted;
    private int failures;
    private int notes;

    /** Counts an element, item or fragment; false if it is one too many. */
    boolean count() {
        return ++count <= MOST_ELEMENTS;
    }

    /** Takes the memory of an element; false if there is too little. */
    boolean takeElement(long valueBytes) {
        memory += ELEMENT_BYTES + valueBytes;
        return !isSpent();
    }

    /** Takes the memory of an item; false if there is too little. */
    boolean takeItem() {
        memory += ITEM_BYTES;
        return !isSpent();
    }

    /** Whether nothing more may be taken. */
    boolean isSpent() {
        return count > MOST_ELEMENTS || memory + wasted > most;
    }

    /** Most bytes, for messages. */
    long most() {
        return most;
    }

    /** What is taken so far, for {@link #giveBack}. */
    long taken() {
        return memory;
    }

    /** Gives back what an attempt that failed had taken; what was copied in vain still counts, as it costs time. */
    void giveBack(long takenBefore) {
        wasted += (memory - takenBefore) / 4;
        memory = takenBefore;
        failures++;
    }

    /** Whether a value of unknown representation may still be tried as items. */
    boolean mayTry() {
        return failures < MOST_FAILURES;
    }

    /** Whether a further finding may be noted: the first ones tell enough. */
    boolean mayNote() {
        return notes++ < MOST_NOTES;
    }
}
