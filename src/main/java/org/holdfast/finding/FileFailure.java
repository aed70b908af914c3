package org.holdfast.finding;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemLoopException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;

/** What went wrong with a file, in words: the message of a file system exception is often only the path. */
public final class FileFailure {

    private FileFailure() {}

    /** A clause without the path, such as "no such file or folder", to stand after the name of the file. */
    public static String words(IOException failure) {
        if (failure instanceof NoSuchFileException) {
            return "no such file or folder";
        }
        if (failure instanceof AccessDeniedException) {
            return "no permission to use it";
        }
        if (failure instanceof FileAlreadyExistsException) {
            return "it is there already";
        }
        if (failure instanceof DirectoryNotEmptyException) {
            return "the folder is not empty";
        }
        if (failure instanceof NotDirectoryException) {
            return "it is not a folder";
        }
        if (failure instanceof FileSystemLoopException) {
            return "a link that leads back to a folder above it";
        }
        if (failure instanceof CharacterCodingException) {
            return "bytes that are not UTF-8";
        }
        String message = failure.getMessage();
        return message == null || message.isBlank() ? failure.getClass().getSimpleName() : message;
    }
}
