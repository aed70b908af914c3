package org.holdfast.construct;

/** A constant that has a word of its own in the JSON document. */
interface Worded {

    /** The word in the document, lower case with hyphens. */
    String word();
}
