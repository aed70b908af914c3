/**
 * Pixels of the desktop: cuts and maps drawn at the exact number of device pixels, and the surface that shows them one to
 * one. Pixel coordinates are 0-based, x to the right and y down, a pixel's centre at integer coordinates.
 *
 * <p>All but {@link org.holdfast.desktop.render.ImageSurface} runs without a toolkit. Uses {@code state}; nothing of
 * {@code viewmodel} or {@code view}.
 */
package org.holdfast.desktop.render;
