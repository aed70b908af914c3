package org.holdfast.architecture.trespass.dicom;

import java.awt.Color;

/** Not allowed: a pixel codec has no colours of its own. */
public record KnowsColours(Color colour) {}
