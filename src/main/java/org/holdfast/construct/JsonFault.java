package org.holdfast.construct;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonProcessingException;

/** What is wrong with a text that is no JSON, in words. */
public final class JsonFault {

    private JsonFault() {}

    /** The parser's sentence with line and column, without what it says about its own settings. */
    public static String words(JsonProcessingException fault) {
        String sentence = fault.getOriginalMessage().replaceAll(" \\(start marker at .*\\)", "");
        JsonLocation at = fault.getLocation();
        return at == null ? sentence : sentence + " (line " + at.getLineNr() + ", column " + at.getColumnNr() + ")";
    }
}
