package org.holdfast.architecture.trespass.measure;

import java.io.IOException;
import java.io.InputStream;

/** Catches everything. */
public final class SwallowsAll {

    int first(InputStream in) {
        try {
            return in.read();
        } catch (Exception e) {
            return -1;
        }
    }

    int firstOrNone(InputStream in) {
        try {
            return in.read();
        } catch (IOException e) {
            return -1;
        }
    }
}
