package org.holdfast.architecture.trespass.dicom;

import java.awt.image.BufferedImage;

/** Allowed: a pixel codec exchanges pictures in memory. */
public record KnowsPictures(BufferedImage image) {}
